using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;

namespace Shimwright.Reference.CrankStops;

/// <summary>A crank angle after cylinder 1's compression TDC and the cylinders whose valves a manual has set there.</summary>
public sealed record PublishedPosition(double Angle, IReadOnlyList<int> Intake, IReadOnlyList<int> Exhaust);

/// <summary>A table of crank positions as it is published, one intake and one exhaust valve a cylinder.</summary>
public sealed record PublishedTable(string Name, IReadOnlyList<int> FiringOrder, IReadOnlyList<PublishedPosition> Positions)
{
    /// <summary>Opening and closing of typical road engines; common practice, no source.</summary>
    public static (CamEvents Intake, CamEvents Exhaust) Typical { get; } = (new(10, 50), new(50, 10));

    /// <summary>Long openings: TM 9-8000, figures 2-54 to 2-56.</summary>
    public static (CamEvents Intake, CamEvents Exhaust) LongOpen { get; } = (new(28, 71), new(71, 45));

    /// <summary>What contradicts the rule that a table names every valve exactly once; empty where nothing does.</summary>
    public IReadOnlyList<string> Contradictions() =>
    [
        .. Counted("intake", Positions.SelectMany(p => p.Intake)),
        .. Counted("exhaust", Positions.SelectMany(p => p.Exhaust)),
    ];

    /// <summary>The valves that stand there more than once.</summary>
    public IReadOnlyList<(ValveSide Side, int Cylinder)> NamedTwice() =>
    [
        .. Positions.SelectMany(p => Valves(p)).GroupBy(v => (v.Side, v.Cylinder)).Where(g => g.Count() > 1).Select(g => g.Key).Order(),
    ];

    public CrankLayout Layout((CamEvents Intake, CamEvents Exhaust) events, double ramp = 0) => new(
        FiringOrder,
        null,
        [.. FiringOrder.Order().SelectMany(c => new[] { Valve(c, ValveSide.Intake, events.Intake), Valve(c, ValveSide.Exhaust, events.Exhaust) })],
        ramp);

    /// <summary>The smallest way from any published position to the end of that valve's heel, crank degrees; negative off it.</summary>
    public double Margin((CamEvents Intake, CamEvents Exhaust) events)
    {
        CrankLayout layout = Layout(events);
        return Positions.SelectMany(p => Valves(p).Select(v => SlackAt(layout, v.Cylinder, v.Side, p.Angle))).Min();
    }

    /// <summary>The table as a plan would list it.</summary>
    public IEnumerable<string> Words() => Positions.Select(p => Words(p.Angle, Valves(p)));

    /// <summary>A plan in the words of a table.</summary>
    public static IEnumerable<string> Words(StopPlan plan, CrankLayout layout) => plan.Stops.Select(s =>
        Words(s.Angle, s.Valves.Select(v => (layout.Valves[v.Valve].Cylinder, layout.Valves[v.Valve].Side))));

    public static double SlackAt(CrankLayout layout, int cylinder, ValveSide side, double angle) =>
        layout.HeelOf(layout.Valves.Single(v => v.Cylinder == cylinder && v.Side == side)).Max(arc => arc.SlackAt(angle));

    public override string ToString() => Name;

    private static TimedValve Valve(int cylinder, ValveSide side, CamEvents events) => new($"{side} {cylinder}", cylinder, side, events, []);

    private static IEnumerable<(int Cylinder, ValveSide Side)> Valves(PublishedPosition position) =>
        position.Intake.Select(c => (c, ValveSide.Intake)).Concat(position.Exhaust.Select(c => (c, ValveSide.Exhaust)));

    private static string Words(double angle, IEnumerable<(int Cylinder, ValveSide Side)> valves) => FormattableString.Invariant(
        $"{angle:0}: {string.Join(' ', valves.OrderBy(v => v.Side).ThenBy(v => v.Cylinder).Select(v => $"{(v.Side == ValveSide.Intake ? 'I' : 'E')}{v.Cylinder}"))}");

    private IEnumerable<string> Counted(string side, IEnumerable<int> named)
    {
        ILookup<int, int> times = named.ToLookup(c => c);
        return times.Select(t => t.Key).Union(FiringOrder).Order()
            .Where(c => !FiringOrder.Contains(c) || times[c].Count() != 1)
            .Select(c => $"{side} {c} stands there {times[c].Count()} times");
    }
}
