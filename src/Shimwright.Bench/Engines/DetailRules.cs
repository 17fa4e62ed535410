using System.Globalization;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Engines;

/// <summary>What may be kept of a card beside what a job file has a place for.</summary>
public static class DetailRules
{
    private const double LeastDiameter = 1, GreatestDiameter = 100;

    /// <summary>The longest note, characters.</summary>
    public const int LongestText = 4000;

    /// <summary>Says what is wrong with details; the paths are their members.</summary>
    /// <param name="details">The details.</param>
    /// <param name="accessGroups">What has to come off at the card's valves.</param>
    /// <returns>The problems.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static IReadOnlyList<JobProblem> ProblemsOf(CardDetails details, IReadOnlyList<string> accessGroups)
    {
        ArgumentNullException.ThrowIfNull(details);
        ArgumentNullException.ThrowIfNull(accessGroups);
        List<JobProblem> problems = [];
        Note("shimDiameter", details.ShimDiameter, LeastDiameter, GreatestDiameter, " mm");
        Note("thinnestShim", details.ThinnestShim, Thickness.Thinnest, Thickness.Thickest, " mm");
        Note("thickestShim", details.ThickestShim, Thickness.Thinnest, Thickness.Thickest, " mm");
        if (problems.Count == 0 && details.ThinnestShim >= details.ThickestShim)
        {
            problems.Add(new("thickestShim", $"found {Exact(details.ThickestShim.Value)} mm", "the thickest is thicker than the thinnest; correct one of the two"));
        }

        foreach ((string group, double minutes) in details.AccessMinutes)
        {
            Note($"accessMinutes.{group}", minutes, 0, PlanCosts.Greatest, " minutes");
            if (!accessGroups.Contains(group))
            {
                problems.Add(new($"accessMinutes.{group}", "no valve has this to come off", $"the card has {string.Join(", ", accessGroups)}"));
            }
        }

        NoteText("limitsFrom", details.LimitsFrom);
        NoteText("notes", details.Notes);
        return problems;

        void Note(string path, double? value, double least, double greatest, string unit)
        {
            if (value is { } v && !(v >= least && v <= greatest))
            {
                problems.Add(new(path, $"found {Exact(v)}{unit}", $"allowed is {Exact(least)} to {Exact(greatest)}{unit}"));
            }
        }

        void NoteText(string path, string text)
        {
            if (text.Length > LongestText)
            {
                problems.Add(new(path, $"found {text.Length} characters", $"allowed are {LongestText}"));
            }
        }
    }

    /// <summary>A number with nothing of it rounded away.</summary>
    private static string Exact(double value) => value.ToString("0.############", CultureInfo.InvariantCulture);
}
