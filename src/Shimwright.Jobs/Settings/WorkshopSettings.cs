using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Settings;

/// <summary>The workshop as its records name it.</summary>
/// <param name="Name">Its name; blank where records name none.</param>
/// <param name="Address">Its address, in lines.</param>
/// <param name="Logo">The picture of its logo, or null.</param>
public sealed record WorkshopSettings(string Name, string Address, Guid? Logo)
{
    /// <summary>The longest name, characters.</summary>
    public const int LongestName = 100;

    /// <summary>The longest address, characters.</summary>
    public const int LongestAddress = 400;

    /// <summary>The most lines of an address.</summary>
    public const int MostLines = 6;

    /// <summary>Nothing is known of it.</summary>
    public static WorkshopSettings Blank { get; } = new("", "", null);

    /// <summary>The lines of the address.</summary>
    /// <returns>The lines, none of them blank.</returns>
    public IReadOnlyList<string> Lines() => Address.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    /// <summary>What is wrong with it.</summary>
    /// <returns>The problems; the paths are workshop.name and workshop.address.</returns>
    public IReadOnlyList<JobProblem> Problems()
    {
        List<JobProblem> problems = [];
        Note("name", Name.Length, LongestName, "characters");
        Note("address", Address.Length, LongestAddress, "characters");
        Note("address", Lines().Count, MostLines, "lines");
        if (Name.Any(char.IsControl))
        {
            problems.Add(new("workshop.name", "found more than one line", "write one line"));
        }

        if (Address.Any(c => char.IsControl(c) && c != '\n'))
        {
            problems.Add(new("workshop.address", "found a character that cannot be printed", "type the address again"));
        }

        return problems;

        void Note(string member, int found, int most, string what)
        {
            if (found > most)
            {
                problems.Add(new($"workshop.{member}", FormattableString.Invariant($"found {found} {what}"), FormattableString.Invariant($"allowed are {most}")));
            }
        }
    }
}
