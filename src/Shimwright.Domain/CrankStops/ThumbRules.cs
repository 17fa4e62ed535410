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
    /// The pairs of running mates, 360 degrees apart: when a valve of one cylinder is fully open, the same valve of the
    /// other is to be set. Empty where a cylinder has no mate or a valve of a mate could not be set then.
    /// </summary>
    /// <param name="layout">The layout.</param>
    /// <returns>Pairs of cylinders, the lower number first.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="layout"/> is null.</exception>
    public static IReadOnlyList<(int One, int Other)> Companions(CrankLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        (int One, int Other)[] pairs =
        [
            .. layout.FiringOrder.SelectMany(one => layout.FiringOrder.Select(other => (One: one, Other: other)))
                .Where(p => p.One < p.Other && IsHalfACycle(layout.FiresAt(p.One), layout.FiresAt(p.Other))).Order(),
        ];
        bool allHaveOne = layout.FiringOrder.All(c => pairs.Any(p => p.One == c || p.Other == c));
        return allHaveOne && pairs.All(p => CanSetEachOther(layout, p.One, p.Other)) ? pairs : [];
    }

    /// <summary>
    /// The sum by which valves are paired, if there is one: with the valves numbered as the layout lists them, front to
    /// rear, when valve k is fully open valve sum - k is on its heel. Nine for an in-line four whose head is a mirror
    /// image and whose mirror cylinders are running mates; null where it does not hold for every valve.
    /// </summary>
    /// <param name="layout">The layout, its valves listed front to rear.</param>
    /// <returns>The sum, or null.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="layout"/> is null.</exception>
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
    /// Whether each cylinder can be set by its own valves: as its exhaust valve begins to open its intake is set; while
    /// its intake valve closes, from full lift to its seat, its exhaust is set.
    /// </summary>
    /// <param name="layout">The layout.</param>
    /// <returns>True where every cylinder that has a valve has both kinds and the rule holds for it.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="layout"/> is null.</exception>
    public static bool OwnCylinderRuleHolds(CrankLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        return layout.Valves.GroupBy(v => v.Cylinder).All(own =>
            own.Select(v => v.Side).Distinct().Count() == 2
            && own.Where(v => v.Side == ValveSide.Intake).All(intake => own.Where(v => v.Side == ValveSide.Exhaust).All(exhaust =>
                CanBeSetAt(layout, intake, Opens(layout, exhaust))
                && CanBeSetBetween(layout, exhaust, FullyOpen(layout, intake), Closes(layout, intake)))));
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

    private static bool CanSetEachOther(CrankLayout layout, int one, int other) =>
        layout.Valves.Where(v => v.Cylinder == one).All(a => layout.Valves
            .Where(b => b.Cylinder == other && b.Side == a.Side)
            .All(b => CanBeSetAt(layout, b, FullyOpen(layout, a)) && CanBeSetAt(layout, a, FullyOpen(layout, b))));

    private static bool CanBeSetAt(CrankLayout layout, TimedValve valve, double angle) =>
        CanBeSetBetween(layout, valve, angle, angle);

    private static bool CanBeSetBetween(CrankLayout layout, TimedValve valve, double from, double to) =>
        layout.HeelOf(valve).Any(arc => arc.SlackAt(from) >= -CrankAngle.Slack
            && CrankAngle.Turn(arc.From, from) + CrankAngle.Turn(from, to) <= arc.Length + CrankAngle.Slack);

    /// <summary>Whether the one valve is at the middle of its heel when the other is fully open: 360 degrees from its own full lift.</summary>
    private static bool IsFurthestFromOpening(CrankLayout layout, TimedValve set, TimedValve open) =>
        IsHalfACycle(FullyOpen(layout, set), FullyOpen(layout, open));

    private static bool IsHalfACycle(double from, double to) =>
        Math.Abs(CrankAngle.Turn(from, to) - (CrankAngle.Cycle / 2)) < SameAngle;
}
