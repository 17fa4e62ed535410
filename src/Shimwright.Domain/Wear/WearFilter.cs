using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Wear;

/// <summary>
/// Follows the valves of an engine through its checks. At the first check the estimate of an engine whose past is unknown
/// gives each clearance, its rate independent of it; later each valve stands for itself, predicted, read and changed.
/// </summary>
public static class WearFilter
{
    /// <summary>Follows an engine from its first check on.</summary>
    /// <param name="checks">Its checks, oldest first, all of the same engine and, for the tables, read by the same fingers.</param>
    /// <param name="wear">What wear is usual.</param>
    /// <param name="seating">How well a change is carried out; what is usual where it is left out.</param>
    /// <param name="strayWeight">The weight of a valve whose past says nothing, at every check but the first.</param>
    /// <returns>Every valve at every check.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="checks"/> or <paramref name="wear"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="checks"/> are none or not oldest first.</exception>
    public static EngineWear Follow(
        IReadOnlyList<WearCheck> checks, UsualWear wear, Seating? seating = null, double strayWeight = HistoryPrior.UsualStrayWeight)
    {
        ArgumentNullException.ThrowIfNull(checks);
        ArgumentOutOfRangeException.ThrowIfZero(checks.Count, nameof(checks));
        ArgumentNullException.ThrowIfNull(wear);
        WearState[] start = [.. checks[0].Check.Engine.Valves.Zip(checks[0].Alone, (valve, alone) => WearState.At(
            alone.Mean, Numerics.Squares.Of(alone.StandardDeviation), wear.RateOf(valve.Side)))];
        return Follow(start, checks, wear, seating, strayWeight);
    }

    /// <summary>Follows an engine whose state at its first check, the readings of that check included, is known.</summary>
    /// <param name="start">Each valve at the first check.</param>
    /// <param name="checks">Its checks, oldest first.</param>
    /// <param name="wear">What wear is usual.</param>
    /// <param name="seating">How well a change is carried out; what is usual where it is left out.</param>
    /// <param name="strayWeight">The weight of a valve whose past says nothing, at every check but the first.</param>
    /// <returns>Every valve at every check.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="start"/>, <paramref name="checks"/> or <paramref name="wear"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="checks"/> are none or not oldest first, or <paramref name="start"/> has not one entry a valve.</exception>
    public static EngineWear Follow(
        IReadOnlyList<WearState> start, IReadOnlyList<WearCheck> checks, UsualWear wear, Seating? seating = null,
        double strayWeight = HistoryPrior.UsualStrayWeight)
    {
        ArgumentNullException.ThrowIfNull(start);
        ArgumentNullException.ThrowIfNull(checks);
        ArgumentNullException.ThrowIfNull(wear);
        ArgumentOutOfRangeException.ThrowIfZero(checks.Count, nameof(checks));
        Engine engine = checks[0].Check.Engine;
        ArgumentOutOfRangeException.ThrowIfNotEqual(start.Count, engine.Valves.Count, nameof(start));
        seating ??= Seating.Usual;
        var update = new HistoryUpdate(
            ResolutionFor(checks), checks[0].Check.Feel, strayWeight, engine.Sense);
        List<List<WearPoint>> valves = [.. engine.Valves.Select(_ => new List<WearPoint>(checks.Count))];
        for (int k = 0; k < checks.Count; k++)
        {
            double time = k == 0 ? 0 : checks[k].Clock - checks[k - 1].Clock;
            ArgumentOutOfRangeException.ThrowIfNegative(time, nameof(checks));
            for (int v = 0; v < valves.Count; v++)
            {
                WearState before = k == 0 ? start[v] : valves[v][^1].Left.After(time, wear.Diffusion);
                WearState found = k == 0 ? start[v] : Read(before, v, checks[k].Check, update);
                valves[v].Add(Point(checks[k], v, before, found, engine.Valvetrain, seating));
            }
        }

        return new EngineWear(engine, wear, checks, [.. valves.Select(v => (IReadOnlyList<WearPoint>)v)]);
    }

    /// <summary>As fine as all readings of all checks together can be gone through.</summary>
    private static Resolution ResolutionFor(IReadOnlyList<WearCheck> checks)
    {
        EngineCheck[] all = [.. checks.Select(c => c.Check)];
        return Resolution.For(all, new PastWork(all).CanBear);
    }

    private static WearState Read(WearState before, int v, EngineCheck check, HistoryUpdate update)
    {
        ValveReadings readings = check.Readings[v];
        if (check.Loss.IsReworked(check.Engine.Valves[v].Side))
        {
            ClearanceDistribution anew = EngineEstimate.Reworked(check.WithoutOffsets, v);
            return before.Reworked(anew.Mean, Numerics.Squares.Of(anew.StandardDeviation));
        }

        if (readings.IsEmpty)
        {
            return before;
        }

        (double mean, double variance) = update.Moments(
            before.Expected(), readings, check.ShiftAt(v), check.Engine.Valves[v].Band, check.Loss);
        return before.Read(mean, variance);
    }

    private static WearPoint Point(WearCheck check, int v, WearState before, WearState found, Valvetrain train, Seating seating)
    {
        bool wasRead = !check.Check.Readings[v].IsEmpty;
        if (check.ChangeAt(v) is not { } adjustment)
        {
            return new(check.Clock, before, found, found, wasRead, false, 0);
        }

        var change = ClearanceChange.Of(adjustment, train, seating);
        return new(check.Clock, before, found, found.Adjusted(change), wasRead, change.IsSet, change.Shift);
    }
}
