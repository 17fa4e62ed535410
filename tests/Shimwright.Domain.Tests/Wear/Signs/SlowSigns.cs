using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Wear;
using Shimwright.Domain.Wear.Signs;

namespace Shimwright.Domain.Tests.Wear.Signs;

/// <summary>
/// The signs of an engine whose readings are numbers, rule by rule from what the guide says of them, with a number for every valve
/// (how much faster than usual, how far below its prediction) instead of distributions and surprises.
/// </summary>
internal sealed class SlowSigns
{
    private readonly EngineWear _wear;
    private readonly double[] _fast;
    private readonly double[] _low;
    private readonly int _count;

    public SlowSigns(EngineWear wear)
    {
        _wear = wear;
        _count = wear.Engine.Valves.Count;
        // An estimate of a rate leaves part of the usual spread unexplained: it scatters by the root of what it has explained.
        _fast = [.. Each(v => (Found(v).Rate - Usual(v).Mean) / Math.Sqrt(Math.Pow(Usual(v).StandardDeviation, 2) - Found(v).RateVariance))];
        _low = [.. Each(v => (Predicted(v).Clearance - Read(v).Millimetres) / Math.Sqrt(Predicted(v).ClearanceVariance + Math.Pow(Read(v).Uncertainty, 2)))];
    }

    /// <summary>Every sign whose evidence is at the limit or below.</summary>
    public IEnumerable<(SignKind Kind, double Evidence, int[] Valves)> Of(double limit) =>
        new (SignKind Kind, double Evidence, int[] Valves)[]
        {
            (SignKind.IntakesFast, Twice(Math.Min(IntakesBy(_fast), IntakesBy(_low))), Side(ValveSide.Intake)),
            Strangest(SignKind.FarFromPartner, _ => true, v => Changed(v) ? ApartBy(_fast, v) : Twice(Math.Min(ApartBy(_fast, v), ApartBy(_low, v))), limit),
            (SignKind.AllFast, Sides().Max(AllBy) <= 0.2 ? AllBy([.. Each(v => v)]) : 2, [.. Each(v => v)]),
            Strangest(SignKind.Gaining, _ => true, v => Gains(v) ? Twice(Math.Min(Tail(-_fast[v]), Changed(v) ? 1 : Tail(-_low[v]))) : 1, limit),
            Strangest(SignKind.Step, v => !Changed(v), v => 2 * Tail(Math.Abs(_low[v])), limit),
            (SignKind.Temperature, IsOtherwiseWarm() ? 2 * Tail(Math.Abs(_low.Sum() / Math.Sqrt(_count))) : 2, [.. Each(v => v)]),
            Strangest(SignKind.MissedPrediction, Changed, v => 2 * Tail(Math.Abs(_low[v])), limit),
        }.Where(s => s.Evidence <= limit && s.Valves.Length > 0);

    /// <summary>The chance, an interval from now, of a clearance that the thinnest shim no longer brings into the band.</summary>
    public double ChanceOfNoRoom(int valve, double thinnest)
    {
        if (_wear.Checks[^1].Fitted[valve] is not { } fitted)
        {
            return 0;
        }

        WearState next = Found(valve).After(_wear.Usual.Interval, _wear.Usual.Diffusion);
        return Tail((next.Clearance + fitted.Millimetres - thinnest - _wear.Engine.Valves[valve].Band.Low) / next.ClearanceSpread);
    }

    private static double Tail(double z) => StandardNormal.Cdf(-z);

    private static double Twice(double tail) => Math.Min(1, 2 * tail);

    private IEnumerable<T> Each<T>(Func<int, T> of) => Enumerable.Range(0, _count).Select(of);

    private int[] Side(ValveSide side) => [.. Each(v => v).Where(v => _wear.Engine.Valves[v].Side == side)];

    private IEnumerable<int[]> Sides() => [Side(ValveSide.Intake), Side(ValveSide.Exhaust)];

    private WearState Found(int v) => _wear.Valves[v][^1].Found;

    private WearState Predicted(int v) => _wear.Valves[v][^1].Predicted;

    private DirectValue Read(int v) => _wear.Checks[^1].Check.Readings[v].Values.Single();

    private RateDistribution Usual(int v) => _wear.Usual.RateOf(_wear.Engine.Valves[v].Side);

    private bool Changed(int v) => _wear.Checks[^2].Changes.Any(c => c.Valve == v);

    private bool Gains(int v) => Found(v).Clearance > _wear.Valves[v][^2].Left.Clearance;

    private bool IsOtherwiseWarm() => Math.Abs(_wear.Checks[^1].Check.Temperature - _wear.Checks[^2].Check.Temperature) > 10;

    private double AllBy(int[] valves)
    {
        double By(double[] numbers) => Tail(valves.Sum(v => numbers[v]) / Math.Sqrt(valves.Length));
        return Twice(Math.Min(By(_fast), By(_low)));
    }

    private double IntakesBy(double[] numbers)
    {
        double[] intakes = [.. Side(ValveSide.Intake).Select(v => numbers[v])];
        double[] exhausts = [.. Side(ValveSide.Exhaust).Select(v => numbers[v])];
        double difference = (intakes.Average() - exhausts.Average()) / Math.Sqrt((1.0 / intakes.Length) + (1.0 / exhausts.Length));
        bool mostAreFast = intakes.Count(n => n > 0) > intakes.Length / 2.0;
        return mostAreFast ? Math.Max(Tail(intakes.Sum() / Math.Sqrt(intakes.Length)), Tail(difference)) : 1;
    }

    private double ApartBy(double[] numbers, int v)
    {
        Valve own = _wear.Engine.Valves[v];
        int[] partners = [.. Side(own.Side).Where(o => o != v && _wear.Engine.Valves[o].Cylinder == own.Cylinder)];
        return numbers[v] > 0 ? Tail((numbers[v] - partners.Average(p => numbers[p])) / Math.Sqrt(1 + (1.0 / partners.Length))) : 1;
    }

    /// <summary>The valves at the limit, strangest first, for having looked at all that the rule is about.</summary>
    private (SignKind Kind, double Evidence, int[] Valves) Strangest(SignKind kind, Func<int, bool> isAbout, Func<int, double> tail, double limit)
    {
        int[] looked = [.. Each(v => v).Where(isAbout)];
        double Evidence(int v) => Math.Min(1, looked.Length * tail(v));
        int[] strange = [.. looked.Where(v => Evidence(v) <= limit).OrderBy(tail)];
        return (kind, strange.Length == 0 ? 2 : Evidence(strange[0]), strange);
    }
}
