using System.Reflection;
using Shimwright.Bench;

namespace Shimwright.Pages.Shell;

/// <summary>Pages that whoever shows the bench adds to it.</summary>
/// <param name="Assemblies">Where they are.</param>
/// <param name="Settings">Those that the settings lead to: address, name, and whether they are for owners only.</param>
/// <param name="HasNews">Whether an open page of a job is told what others add.</param>
public sealed record HostPages(IReadOnlyList<Assembly> Assemblies, IReadOnlyList<(string Address, string Name, bool IsOwners)> Settings, bool HasNews = false)
{
    /// <summary>Whether the days on which engines are due can be fetched as a calendar.</summary>
    public bool HasCalendar { get; init; } = true;

    /// <summary>Whether the bench is one that the program's commands can reach.</summary>
    public bool HasCommands { get; init; } = true;

    /// <summary>What is to be said at the top of the bench, in words and with an address that leads on; null where nothing is.</summary>
    public Func<IBench, Task<HostNotice?>>? Notice { get; init; }

    /// <summary>What is to be said on every page of a job; null where nothing ever is.</summary>
    public Func<Guid, IReadOnlyList<HostNotice>>? JobNotices { get; init; }

    /// <summary>Where the pages are reached, for what is printed, by the address at which they were asked for.</summary>
    public Func<Uri, BenchReach> Reach { get; init; } = BenchReach.Asked;

    /// <summary>None.</summary>
    public static HostPages None { get; } = new([], []);
}

/// <summary>Something that whoever shows the bench has to say at its top.</summary>
/// <param name="Words">What.</param>
/// <param name="Address">Where it leads on.</param>
/// <param name="Link">What the link says.</param>
public sealed record HostNotice(string Words, string Address, string Link);
