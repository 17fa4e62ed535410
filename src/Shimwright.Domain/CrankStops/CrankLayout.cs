using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.CrankStops;

/// <summary>One valve as far as the crank matters.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Cylinder">Its cylinder.</param>
/// <param name="Side">Intake or exhaust.</param>
/// <param name="Events">When it opens and closes.</param>
/// <param name="Also">Further intervals off its heel, such as a decompressor's.</param>
/// <param name="Decompressor">The decompressor that works on it, or null.</param>
public sealed record TimedValve(
    string Id, int Cylinder, ValveSide Side, CamEvents Events, IReadOnlyList<OffHeel> Also, Decompressor? Decompressor = null)
{
    /// <summary>Where it is off its heel besides its lobe, while the crank is turned in running direction.</summary>
    public IReadOnlyList<OffHeel> OffOtherwise => Decompressor?.LiftsAt(Also) ?? Also;
}

/// <summary>Cylinders, when they fire, and when each valve is off its heel.</summary>
public sealed class CrankLayout
{
    private readonly Dictionary<int, double> _fires;

    /// <summary>Makes a layout.</summary>
    /// <param name="firingOrder">Cylinders in the order in which they fire, each once.</param>
    /// <param name="firingAngles">When each fires, crank degrees, rising within one cycle; null for even firing.</param>
    /// <param name="valves">The valves.</param>
    /// <param name="ramp">By how much every interval off the heel is widened at both ends, crank degrees, 0 to 180.</param>
    /// <param name="marks">Marks besides the two dead centres of every cylinder, crank degrees.</param>
    /// <param name="eventsAt">The lift at which the valves' events are given, mm, 0 to 5.</param>
    /// <exception cref="ArgumentNullException"><paramref name="firingOrder"/> or <paramref name="valves"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="firingAngles"/> are not as many as the cylinders, or <paramref name="ramp"/> or <paramref name="eventsAt"/> is outside its range.</exception>
    /// <exception cref="ArgumentException">A cylinder stands twice in <paramref name="firingOrder"/>.</exception>
    public CrankLayout(
        IReadOnlyList<int> firingOrder, IReadOnlyList<double>? firingAngles, IReadOnlyList<TimedValve> valves,
        double ramp = 20, IReadOnlyList<double>? marks = null, double eventsAt = 1)
    {
        ArgumentNullException.ThrowIfNull(firingOrder);
        ArgumentNullException.ThrowIfNull(valves);
        FiringOrder = firingOrder;
        FiringAngles = firingAngles ?? EvenAngles(firingOrder);
        ArgumentOutOfRangeException.ThrowIfNotEqual(FiringAngles.Count, firingOrder.Count, nameof(firingAngles));
        _fires = firingOrder.Zip(FiringAngles).ToDictionary(c => c.First, c => CrankAngle.Wrap(c.Second));
        Valves = valves;
        Ramp = Guard.Within(ramp, 0, CamRamp.Widest);
        Widening = new CamRamp(ramp, eventsAt);
        Marks = marks ?? [];
    }

    /// <summary>Cylinders in the order in which they fire.</summary>
    public IReadOnlyList<int> FiringOrder { get; }

    /// <summary>When each of them fires, crank degrees.</summary>
    public IReadOnlyList<double> FiringAngles { get; }

    /// <summary>The valves.</summary>
    public IReadOnlyList<TimedValve> Valves { get; }

    /// <summary>By how much every interval off the heel is widened at both ends, for events at 1 mm lift, crank degrees.</summary>
    public double Ramp { get; }

    /// <summary>The same, for the lift at which the events are given.</summary>
    public CamRamp Widening { get; }

    /// <summary>Marks besides the two dead centres of every cylinder, crank degrees.</summary>
    public IReadOnlyList<double> Marks { get; }

    /// <summary>A cylinder's compression TDC, crank degrees in [0, 720).</summary>
    /// <param name="cylinder">The cylinder; it must be in the firing order.</param>
    /// <returns>The angle.</returns>
    /// <exception cref="KeyNotFoundException"><paramref name="cylinder"/> is not in the firing order.</exception>
    public double FiresAt(int cylinder) => _fires[cylinder];

    /// <summary>Where a valve may be checked: the arcs on which it stands on its heel, crank degrees.</summary>
    /// <param name="valve">The valve.</param>
    /// <returns>The arcs, none where the valve is never closed.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="valve"/> is null.</exception>
    public IReadOnlyList<HeelArc> HeelOf(TimedValve valve)
    {
        ArgumentNullException.ThrowIfNull(valve);
        return HeelOf(valve.Events.OnSide(valve.Side), valve.OffOtherwise, Widening, FiresAt(valve.Cylinder));
    }

    /// <summary>Where a valve stands on its heel, of which only its intervals are known.</summary>
    /// <param name="open">Where it is open, crank degrees after its own cylinder's compression TDC.</param>
    /// <param name="also">Further intervals off its heel.</param>
    /// <param name="ramp">By how much each is widened at both ends.</param>
    /// <param name="fires">Its cylinder's compression TDC.</param>
    /// <returns>The arcs, none where the valve is never closed.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="also"/> or <paramref name="ramp"/> is null.</exception>
    public static IReadOnlyList<HeelArc> HeelOf(OffHeel open, IEnumerable<OffHeel> also, CamRamp ramp, double fires)
    {
        ArgumentNullException.ThrowIfNull(also);
        ArgumentNullException.ThrowIfNull(ramp);
        return HeelArc.Between(also.Select(o => o.Widened(ramp.Degrees)).Prepend(open.Widened(ramp.OfEvents)).Select(o => o.Later(fires)));
    }

    /// <summary>
    /// Where the valves of decompressors that lift on the way may be read although no dead centre and no mark is there: as
    /// soon as they have been let go, where the heel is free then; crank degrees in [0, 720).
    /// </summary>
    /// <param name="valve">The valve.</param>
    /// <returns>The angles, none where no decompressor lifts the valve on the way.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="valve"/> is null.</exception>
    public IReadOnlyList<double> LetGoOf(TimedValve valve)
    {
        ArgumentNullException.ThrowIfNull(valve);
        if (valve.Decompressor is not { LiftsOnTheWay: true })
        {
            return [];
        }

        IReadOnlyList<HeelArc> heel = HeelOf(valve);
        return
        [
            .. valve.OffOtherwise
                .Select(o => CrankAngle.Wrap(FiresAt(valve.Cylinder) + o.From + o.Length + Ramp + Decompressor.Beyond))
                .Where(angle => heel.Any(arc => arc.SlackAt(angle) >= 0)),
        ];
    }

    private static double[] EvenAngles(IReadOnlyList<int> firingOrder)
    {
        // Cylinder 1 is the datum wherever it stands in the order.
        int first = Math.Max(0, firingOrder.Index().FirstOrDefault(c => c.Item == 1).Index);
        return [.. firingOrder.Select((_, k) => CrankAngle.Wrap((k - first) * CrankAngle.Cycle / firingOrder.Count))];
    }
}
