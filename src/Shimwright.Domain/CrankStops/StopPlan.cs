namespace Shimwright.Domain.CrankStops;

/// <summary>A valve at the stop where it is checked.</summary>
/// <param name="Valve">Its place in the layout, from 0.</param>
/// <param name="Slack">How far the crank may be off before the valve leaves its heel, crank degrees.</param>
public sealed record StoppedValve(int Valve, double Slack);

/// <summary>A place where the crank stops.</summary>
/// <param name="Angle">Crank degrees after cylinder 1's compression TDC, in [0, 720).</param>
/// <param name="Turn">Crank degrees to turn from the stop before, or from cylinder 1's compression TDC.</param>
/// <param name="Valves">The valves that are checked there, in the layout's order.</param>
public sealed record CrankStop(double Angle, double Turn, IReadOnlyList<StoppedValve> Valves);

/// <summary>
/// The fewest stops at which every valve can be checked; among those the largest smallest slack, then the earliest
/// stops. A valve is listed once, at the stop where its slack is largest.
/// </summary>
/// <param name="Stops">The stops in running direction.</param>
public sealed record StopPlan(IReadOnlyList<CrankStop> Stops)
{
    /// <summary>The most valves that a layout may have here.</summary>
    public const int MostValves = 64;

    /// <summary>Plans the stops.</summary>
    /// <param name="layout">The layout; every valve must have a place on its heel.</param>
    /// <param name="anywhere">Whether the crank may stop at any angle instead of at marks and dead centres only.</param>
    /// <returns>The plan, or null where no set of marks serves every valve.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="layout"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="layout"/> has too many valves.</exception>
    public static StopPlan? For(CrankLayout layout, bool anywhere)
    {
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(layout.Valves.Count, MostValves, nameof(layout));
        HeelArc[][] heels = [.. layout.Valves.Select(v => layout.HeelOf(v).ToArray())];
        var search = new StopSearch(heels, anywhere ? null : MarksOf(layout));
        return search.Best() is { } angles ? new StopPlan(List(angles, heels)) : null;
    }

    /// <summary>The valves that no mark and no dead centre serves.</summary>
    /// <param name="layout">The layout.</param>
    /// <returns>Their places in the layout, from 0; none where every valve can be checked somewhere.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="layout"/> is null.</exception>
    public static IReadOnlyList<int> ServedByNoMark(CrankLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        double[] marks = MarksOf(layout);
        return [.. layout.Valves.Index()
            .Where(v => layout.HeelOf(v.Item) is var heel && (heel.Count == 0 || marks.All(m => SlackAt(heel, m) < -CrankAngle.Slack)))
            .Select(v => v.Index)];
    }

    /// <summary>How far a valve may be off at an angle; negative where it is off its heel.</summary>
    internal static double SlackAt(IEnumerable<HeelArc> heel, double angle) => heel.Max(arc => arc.SlackAt(angle));

    private static double[] MarksOf(CrankLayout layout) =>
    [
        .. layout.FiringAngles.SelectMany(a => new[] { CrankAngle.Wrap(a), CrankAngle.Wrap(a + 360) })
            .Concat(layout.Marks.Select(CrankAngle.Wrap))
            .Concat(layout.Valves.SelectMany(layout.LetGoOf))
            .Select(a => Math.Round(a, 9))
            .Distinct().Order(),
    ];

    private static List<CrankStop> List(double[] angles, HeelArc[][] heels)
    {
        List<StoppedValve>[] valves = [.. angles.Select(_ => new List<StoppedValve>())];
        for (int v = 0; v < heels.Length; v++)
        {
            int best = 0;
            for (int s = 1; s < angles.Length; s++)
            {
                if (SlackAt(heels[v], angles[s]) > SlackAt(heels[v], angles[best]) + CrankAngle.Slack)
                {
                    best = s;
                }
            }

            valves[best].Add(new StoppedValve(v, Math.Max(0, SlackAt(heels[v], angles[best]))));
        }

        return [.. angles.Select((angle, s) => new CrankStop(
            angle, CrankAngle.Turn(s == 0 ? 0 : angles[s - 1], angle), valves[s]))];
    }
}
