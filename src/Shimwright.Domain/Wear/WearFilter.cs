using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Domain.Shims;

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
    /// <param name="rules">How well a change is carried out.</param>
    /// <param name="strayWeight">The weight of a valve whose past says nothing, at every check but the first.</param>
    /// <returns>Every valve at every check.</returns>
    public static EngineWear Follow(
        IReadOnlyList<WearCheck> checks, UsualWear wear, PlanRules? rules = null, double strayWeight = HistoryPrior.UsualStrayWeight)
    {
        ArgumentNullException.ThrowIfNull(checks);
        ArgumentOutOfRangeException.ThrowIfZero(checks.Count, nameof(checks));
        ArgumentNullException.ThrowIfNull(wear);
        EngineEstimate first = EngineEstimate.From(checks[0].Check);
        WearState[] start = [.. checks[0].Check.Engine.Valves.Select((valve, v) => WearState.At(
            first.Valves[v].Mean, Numerics.Squares.Of(first.Valves[v].StandardDeviation), wear.RateOf(valve.Side)))];
        return Follow(start, checks, wear, rules, strayWeight);
    }

    /// <summary>Follows an engine whose state at its first check, the readings of that check included, is known.</summary>
    /// <param name="start">Each valve at the first check.</param>
    /// <param name="checks">Its checks, oldest first.</param>
    /// <param name="wear">What wear is usual.</param>
    /// <param name="rules">How well a change is carried out.</param>
    /// <param name="strayWeight">The weight of a valve whose past says nothing, at every check but the first.</param>
    /// <returns>Every valve at every check.</returns>
    public static EngineWear Follow(
        IReadOnlyList<WearState> start, IReadOnlyList<WearCheck> checks, UsualWear wear, PlanRules? rules = null,
        double strayWeight = HistoryPrior.UsualStrayWeight)
    {
        ArgumentNullException.ThrowIfNull(start);
        ArgumentNullException.ThrowIfNull(checks);
        ArgumentNullException.ThrowIfNull(wear);
        ArgumentOutOfRangeException.ThrowIfZero(checks.Count, nameof(checks));
        Engine engine = checks[0].Check.Engine;
        ArgumentOutOfRangeException.ThrowIfNotEqual(start.Count, engine.Valves.Count, nameof(start));
        rules ??= PlanRules.Default;
        var update = new HistoryUpdate(
            Resolution.For(checks.Select(c => c.Check)), checks[0].Check.Feel, strayWeight);
        List<List<WearPoint>> valves = [.. engine.Valves.Select(_ => new List<WearPoint>(checks.Count))];
        for (int k = 0; k < checks.Count; k++)
        {
            double time = k == 0 ? 0 : checks[k].Clock - checks[k - 1].Clock;
            ArgumentOutOfRangeException.ThrowIfNegative(time, nameof(checks));
            for (int v = 0; v < valves.Count; v++)
            {
                WearState before = k == 0 ? start[v] : valves[v][^1].Left.After(time, wear.Diffusion);
                WearState found = k == 0 ? start[v] : Read(before, v, checks[k].Check, update);
                valves[v].Add(Point(checks[k], v, before, found, engine.Valvetrain, rules));
            }
        }

        return new EngineWear(engine, wear, checks, [.. valves.Select(v => (IReadOnlyList<WearPoint>)v)]);
    }

    private static WearState Read(WearState before, int v, EngineCheck check, HistoryUpdate update)
    {
        ValveReadings readings = check.Readings[v];
        if (readings.IsEmpty)
        {
            return before;
        }

        (double mean, double variance) = update.Moments(
            before.Expected(), readings, check.Thermal, check.Engine.Valves[v].Band, check.Loss);
        return before.Read(mean, variance);
    }

    private static WearPoint Point(WearCheck check, int v, WearState before, WearState found, Valvetrain train, PlanRules rules)
    {
        Adjustment? change = check.ChangeAt(v);
        bool wasRead = !check.Check.Readings[v].IsEmpty;
        if (change is { From: { } from, To: { } to })
        {
            ThicknessDifference difference = from.Minus(to);
            double shift = train.Ratio * difference.Millimetres;
            WearState moved = found.Moved(shift, rules.ChangeUncertainty(train.Ratio * difference.Uncertainty));
            return new(check.Clock, before, found, moved, wasRead, false, shift);
        }

        double turned = change is null ? 0 : train.ClearancePerTurn * change.Turns;
        return change is null
            ? new(check.Clock, before, found, found, wasRead, false, 0)
            : new(check.Clock, before, found, found.Set(turned, rules.ScrewUncertainty), wasRead, true, turned);
    }
}
