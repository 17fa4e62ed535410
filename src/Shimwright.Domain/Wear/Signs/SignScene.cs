using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;

namespace Shimwright.Domain.Wear.Signs;

/// <summary>
/// What the rules look at: for each valve two numbers that are standard normal, or nearer to 0, while nothing is wrong. One
/// says how far the last check missed its prediction: the chance, under the prediction, of readings no likelier than those made, slips
/// of the fingers counted, written as a normal number. The other says how far the rate that all checks together tell is from what is usual.
/// </summary>
internal sealed class SignScene
{
    private const double LeastGain = 1e-3;
    private const double LeastChance = 1e-200;
    private readonly double?[] _miss;
    private readonly double?[] _rate;

    public SignScene(EngineWear wear)
    {
        Wear = wear;
        _miss = [.. wear.Valves.Select((points, v) => MissOf(points, v))];
        _rate = [.. wear.Valves.Select((points, v) => RateOf(points[^1].Found, wear.Usual.RateOf(wear.Engine.Valves[v].Side)))];
    }

    /// <summary>What the checks say.</summary>
    public EngineWear Wear { get; }

    public IReadOnlyList<Valve> Valves => Wear.Engine.Valves;

    /// <summary>How far a valve was found below where it was expected at the last check, in standard deviations; null where it tells nothing.</summary>
    public double? MissAt(int valve) => _miss[valve];

    /// <summary>How much faster than usual a valve loses clearance, in standard deviations of what an estimate may be off; null where it tells nothing.</summary>
    public double? RateAt(int valve) => _rate[valve];

    /// <summary>Whether the shim or screw of a valve was changed at the check before the last.</summary>
    public bool WasChanged(int valve) => Wear.Checks.Count > 1 && Wear.Checks[^2].ChangeAt(valve) is not null;

    /// <summary>The valves of a side.</summary>
    public IEnumerable<int> OfSide(ValveSide side) => Valves.Index().Where(v => v.Item.Side == side).Select(v => v.Index);

    /// <summary>
    /// P(M ≥ m) for the mean of the valves' numbers, whichever of the two kinds is the stranger, counted twice for the choice;
    /// 1 where they tell nothing.
    /// </summary>
    public double TailOfMean(IReadOnlyCollection<int> valves) => Tail.OfBoth(
        Tail.Above(RootMean([.. valves.Select(RateAt)])), Tail.Above(RootMean([.. valves.Select(MissAt)])));

    /// <summary>The sum of numbers over the root of how many there are, again standard normal; null where one is missing.</summary>
    public static double? RootMean(IReadOnlyCollection<double?> numbers) =>
        numbers.Count == 0 || numbers.Any(n => n is null) ? null : numbers.Sum() / Math.Sqrt(numbers.Count);

    private double? MissOf(IReadOnlyList<WearPoint> points, int v)
    {
        EngineCheck check = Wear.Checks[^1].Check;
        WearPoint last = points[^1];
        if (points.Count < 2 || !last.WasRead)
        {
            return null;
        }

        ClearanceDistribution predicted = NormalClearance.On(
            Valves[v].Band, last.Predicted.Clearance, last.Predicted.ClearanceSpread, check.Feel.FinestScale(check.Readings[v]));
        return Surprise.Of(predicted, check.Readings[v], check.ShiftAt(v), check.Feel) is { } chance
            ? -Math.Sign(last.Predicted.Clearance - last.Found.Clearance) * StandardNormal.Quantile(Math.Max(LeastChance, Math.Min(1, chance) / 2))
            : null;
    }

    private static double? RateOf(WearState found, RateDistribution usual)
    {
        double told = Squares.Of(usual.StandardDeviation) - found.RateVariance;
        return told > LeastGain * Squares.Of(usual.StandardDeviation) ? (found.Rate - usual.Mean) / Math.Sqrt(told) : null;
    }
}
