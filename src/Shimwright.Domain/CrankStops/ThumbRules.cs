using Shimwright.Domain.Engines;

namespace Shimwright.Domain.CrankStops;

/// <summary>
/// Rules of thumb that hold for a layout, found by looking whether they hold, not in a table. Each valve must be on its
/// heel, with the layout's ramp, wherever the rule says that it may be set.
/// </summary>
public static class ThumbRules
{
    private const double SameAngle = 1e-6;

    /// <summary>
    /// The pairs of running mates: when a valve of one cylinder is fully open, the same valve of the other is to be set.
    /// Empty unless every cylinder has a mate 360 degrees away.
    /// </summary>
    /// <param name="layout">The layout.</param>
    /// <returns>Pairs of cylinders, the lower number first.</returns>
    public static IReadOnlyList<(int One, int Other)> Companions(CrankLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        (int One, int? Other)[] pairs = [.. layout.FiringOrder.Select(c => (c, layout.CompanionOf(c)))];
        return pairs.All(p => p.Other is not null)
            ? [.. pairs.Where(p => p.One < p.Other).Select(p => (p.One, p.Other!.Value)).Order()]
            : [];
    }

    /// <summary>
    /// The sum by which valves are paired, if there is one: with the valves numbered as the layout lists them, front to
    /// rear, when valve k is fully open valve sum - k is on its heel. Nine for an in-line four whose head is a mirror
    /// image and whose mirror cylinders are running mates; null where it does not hold for every valve.
    /// </summary>
    /// <param name="layout">The layout, its valves listed front to rear.</param>
    /// <returns>The sum, or null.</returns>
    public static int? PairSum(CrankLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        int count = layout.Valves.Count;
        for (int k = 0; k < count; k++)
        {
            TimedValve open = layout.Valves[k];
            TimedValve set = layout.Valves[count - 1 - k];
            if (open.Side != set.Side || !CanBeSetAt(layout, set, FullyOpen(layout, open)) || !IsFurthestFromOpening(layout, set, open))
            {
                return null;
            }
        }

        return count + 1;
    }

    /// <summary>
    /// Whether each cylinder can be set by its own valves: as its exhaust valve begins to open its intake is set, as its
    /// intake valve finishes closing its exhaust is set.
    /// </summary>
    /// <param name="layout">The layout.</param>
    /// <returns>True where the rule holds for every cylinder.</returns>
    public static bool OwnCylinderRuleHolds(CrankLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        return layout.Valves.All(set => layout.Valves
            .Where(other => other.Cylinder == set.Cylinder && other.Side != set.Side)
            .All(other => CanBeSetAt(layout, set, set.Side == ValveSide.Intake ? Opens(layout, other) : Closes(layout, other))));
    }

    /// <summary>Where a valve is fully open: the middle of its opening, crank degrees.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="valve">The valve.</param>
    /// <returns>The angle in [0, 720).</returns>
    public static double FullyOpen(CrankLayout layout, TimedValve valve) =>
        CrankAngle.Wrap(Opens(layout, valve) + (valve.Events.Duration / 2));

    private static double Opens(CrankLayout layout, TimedValve valve) =>
        CrankAngle.Wrap(layout.FiresAt(valve.Cylinder) + valve.Events.OnSide(valve.Side).From);

    private static double Closes(CrankLayout layout, TimedValve valve) =>
        CrankAngle.Wrap(Opens(layout, valve) + valve.Events.Duration);

    private static bool CanBeSetAt(CrankLayout layout, TimedValve valve, double angle) =>
        layout.HeelOf(valve) is { Count: > 0 } heel && StopPlan.SlackAt(heel, angle) >= -CrankAngle.Slack;

    /// <summary>Whether the one valve is at the middle of its heel when the other is fully open: 360 degrees from its own full lift.</summary>
    private static bool IsFurthestFromOpening(CrankLayout layout, TimedValve set, TimedValve open)
    {
        double apart = CrankAngle.Turn(FullyOpen(layout, set), FullyOpen(layout, open));
        return Math.Abs(apart - 360) < SameAngle;
    }
}
