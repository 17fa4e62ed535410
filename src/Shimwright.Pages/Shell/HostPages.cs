using System.Reflection;

namespace Shimwright.Pages.Shell;

/// <summary>Pages that whoever shows the bench adds to it.</summary>
/// <param name="Assemblies">Where they are.</param>
/// <param name="Settings">Those that the settings lead to: address, name, and whether they are for owners only.</param>
/// <param name="HasNews">Whether an open page of a job is told what others add.</param>
public sealed record HostPages(IReadOnlyList<Assembly> Assemblies, IReadOnlyList<(string Address, string Name, bool IsOwners)> Settings, bool HasNews = false)
{
    /// <summary>None.</summary>
    public static HostPages None { get; } = new([], []);
}
