using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;

namespace Shimwright.Jobs.Fitting;

/// <summary>One valve's turn at the bench.</summary>
/// <param name="Row">The plan's line.</param>
/// <param name="LaidAsideFor">The valve that gets the shim that comes out here, or null where it is left over.</param>
/// <param name="MustWaitFor">The valve whose shim has to be out before this one can be fitted, or null.</param>
public sealed record ShimMove(PlanRow Row, string? LaidAsideFor, string? MustWaitFor);

/// <summary>The order in which valves are changed, where a shim goes from one valve to another.</summary>
public static class ShimMoves
{
    /// <summary>
    /// Puts the changes in an order in which a shim is handed on by hand: each chain begins with the valve whose own shim nobody
    /// waits for and goes on to the valve that gives it one. Where shims go round in a ring, it begins with the valve that is listed first.
    /// </summary>
    /// <param name="plan">The plan.</param>
    /// <returns>Every changed valve once.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="plan"/> is null.</exception>
    public static IReadOnlyList<ShimMove> InOrder(PlanAccepted plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        PlanRow[] changes = [.. plan.Changes];
        Dictionary<string, PlanRow> byValve = changes.ToDictionary(c => c.Valve, StringComparer.Ordinal);
        Dictionary<string, string> takerOf = changes.Where(c => c.To?.FromValve is not null)
            .ToDictionary(c => c.To!.FromValve!, c => c.Valve, StringComparer.Ordinal);
        List<ShimMove> moves = [];
        HashSet<string> done = new(StringComparer.Ordinal);

        void Follow(PlanRow? row)
        {
            while (row is not null && done.Add(row.Valve))
            {
                string? giver = row.To?.FromValve;
                moves.Add(new(row, takerOf.GetValueOrDefault(row.Valve), giver));
                row = giver is null ? null : byValve.GetValueOrDefault(giver);
            }
        }

        foreach (PlanRow row in changes.Where(c => !takerOf.ContainsKey(c.Valve)))
        {
            Follow(row);
        }

        foreach (PlanRow row in changes)
        {
            Follow(row);
        }

        return moves;
    }
}
