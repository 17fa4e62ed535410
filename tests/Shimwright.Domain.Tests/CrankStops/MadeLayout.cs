using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Tests.CrankStops;

/// <summary>Layouts with everything filled in that a test does not care about.</summary>
internal static class MadeLayout
{
    /// <summary>The events of a mild road engine.</summary>
    public static CamEvents Intake { get; } = new(10, 50);

    public static CamEvents Exhaust { get; } = new(50, 10);

    public static TimedValve Valve(int cylinder, ValveSide side, CamEvents? events = null, params OffHeel[] also) => new(
        $"{(side == ValveSide.Intake ? "I" : "E")}{cylinder}", cylinder, side, events ?? (side == ValveSide.Intake ? Intake : Exhaust), also);

    /// <summary>One intake and one exhaust valve a cylinder.</summary>
    public static IReadOnlyList<TimedValve> TwoEach(IEnumerable<int> cylinders) =>
        [.. cylinders.SelectMany(c => new[] { Valve(c, ValveSide.Intake), Valve(c, ValveSide.Exhaust) })];

    /// <summary>Valves in the order of a head, front to rear, two a cylinder: I and E.</summary>
    public static IReadOnlyList<TimedValve> Head(string sides) =>
        [.. sides.Index().Select(s => Valve(1 + (s.Index / 2), s.Item == 'I' ? ValveSide.Intake : ValveSide.Exhaust))];

    public static CrankLayout Of(IReadOnlyList<int> firingOrder, IReadOnlyList<TimedValve>? valves = null, double ramp = 20) =>
        new(firingOrder, null, valves ?? TwoEach(firingOrder), ramp);

    /// <summary>One cylinder with these valves.</summary>
    public static CrankLayout Single(double ramp, params TimedValve[] valves) => new([1], null, valves, ramp);

    /// <summary>What a plan says, in words that can be compared.</summary>
    public static string[] Words(this StopPlan? plan, CrankLayout layout) =>
    [
        .. plan!.Stops.Select(s => FormattableString.Invariant(
            $"{s.Angle:0.######} after {s.Turn:0.######}: {string.Join(", ", s.Valves.Select(v => FormattableString.Invariant($"{layout.Valves[v.Valve].Id} {v.Slack:0.######}")))}")),
    ];

    public static double SmallestSlack(this StopPlan? plan) => plan!.Stops.SelectMany(s => s.Valves).Min(v => v.Slack);
}
