using Shimwright.Domain.Engines;
using Shimwright.Jobs.Sections;

namespace Shimwright.Pages.Pictures;

/// <summary>A valve as the picture of the head shows it.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Status">in, out, unsettled or none.</param>
/// <param name="Link">Where it leads to, or null.</param>
/// <param name="IsSelected">Whether it is the one that the page is about.</param>
/// <param name="Word">The status in other words than the usual, or null.</param>
/// <param name="IsAway">Whether the crank has to be turned before it can be felt.</param>
public sealed record HeadValve(Valve Valve, string Status, string? Link, bool IsSelected = false, string? Word = null, bool IsAway = false);

/// <summary>One cylinder in the picture, its valves in the order of the card.</summary>
internal sealed record HeadCylinder(int Number, IReadOnlyList<HeadValve> Intake, IReadOnlyList<HeadValve> Exhaust);

/// <summary>
/// Which cylinders stand beside each other: in one row, or in two where the card's access groups fall into two sets that
/// share no cylinder, as they do where each bank has its own covers and camshafts.
/// </summary>
internal static class HeadPlan
{
    /// <summary>How many valves on a side leave room for larger ones on a phone.</summary>
    private const int Few = 4;

    public static IReadOnlyList<IReadOnlyList<HeadCylinder>> RowsOf(IReadOnlyList<HeadValve> valves)
    {
        HeadCylinder[] cylinders = [.. valves.GroupBy(v => v.Valve.Cylinder).OrderBy(c => c.Key).Select(c => new HeadCylinder(
            c.Key,
            [.. c.Where(v => v.Valve.Side == ValveSide.Intake)],
            [.. c.Where(v => v.Valve.Side == ValveSide.Exhaust)]))];
        List<HashSet<int>> heads = HeadsOf(valves);
        return heads.Count == 2
            ? [.. heads.Select(h => (IReadOnlyList<HeadCylinder>)[.. cylinders.Where(c => h.Contains(c.Number))])]
            : [cylinders];
    }

    /// <summary>Where the front of the head is, as the end of a label.</summary>
    public static string FrontWords(HeadEnd? front) => front switch
    {
        HeadEnd.First => ", front at cylinder 1",
        HeadEnd.Last => ", front at the last cylinder",
        _ => "",
    };

    /// <summary>Whether a row leaves room for larger valves on a phone.</summary>
    public static bool IsShort(IReadOnlyList<HeadCylinder> row) => row.Sum(c => Math.Max(c.Intake.Count, c.Exhaust.Count)) <= Few;

    /// <summary>Sets of cylinders that are reached by lifting the same parts, the set of the lowest cylinder first.</summary>
    private static List<HashSet<int>> HeadsOf(IReadOnlyList<HeadValve> valves)
    {
        List<HashSet<int>> heads = [];
        foreach (IGrouping<string, HeadValve> group in valves.GroupBy(v => v.Valve.Access, StringComparer.Ordinal))
        {
            HashSet<int> reached = [.. group.Select(v => v.Valve.Cylinder)];
            List<HashSet<int>> joined = [.. heads.Where(h => h.Overlaps(reached))];
            heads.RemoveAll(joined.Contains);
            heads.Add([.. joined.SelectMany(h => h), .. reached]);
        }

        return [.. heads.OrderBy(h => h.Min())];
    }
}
