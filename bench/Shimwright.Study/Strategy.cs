using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Testing.Chance;

namespace Shimwright.Study;

/// <summary>How a mechanic goes about one job; one object a job.</summary>
internal abstract class Strategy
{
    /// <summary>Takes note of a round of readings.</summary>
    public abstract void Note(Job job, IReadOnlyList<ValveReadings> readings);

    /// <summary>What to fit, after the latest readings.</summary>
    public abstract IReadOnlyList<Swap> Decide(Job job);

    /// <summary>Whether the latest readings look right.</summary>
    public abstract bool Passes(Job job);

    /// <summary>The chance that the first plan promised; null where there was none, or where it left a valve stranded.</summary>
    public virtual double? FirstChance => null;
}

/// <summary>Works with one number a valve and marked sizes.</summary>
/// <param name="wanted">The thickness wanted: shim in the valve, clearance written down, band.</param>
/// <param name="measures">Whether the shims in the engine are read by micrometer.</param>
/// <param name="lightPlay">What is added to a blade that felt light.</param>
internal sealed class ByNumber(
    Func<double, double, ClearanceBand, double> wanted, bool measures = false, double lightPlay = 0) : Strategy
{
    private double[] _numbers = [];

    /// <summary>New = old + measured - middle.</summary>
    public static Strategy Arithmetic(bool measures, double lightPlay = 0) =>
        new ByNumber((old, clearance, band) => old + clearance - band.Middle, measures, lightPlay);

    /// <summary>Too tight: two sizes down. Too loose: one size up.</summary>
    public static Strategy TwoSizesDown() => new ByNumber(
        (old, clearance, band) => old + (clearance < band.Low ? -2 * Shim.Sizes.Step : Shim.Sizes.Step));

    public override void Note(Job job, IReadOnlyList<ValveReadings> readings) =>
        _numbers = [.. readings.Select(r => Fingers.PointOf(r, lightPlay))];

    public override IReadOnlyList<Swap> Decide(Job job)
    {
        List<Swap> swaps = [];
        foreach ((int v, Valve valve) in Job.Engine.Valves.Index())
        {
            if (!IsIn(valve.Band, _numbers[v]))
            {
                if (measures)
                {
                    job.Measure(job.Fitted[v]);
                }

                double old = job.Fitted[v].Reading.Millimetres;
                swaps.Add(new Swap(v, job.Take(Shim.SizeNear(wanted(old, _numbers[v], valve.Band)))));
            }
        }

        return swaps;
    }

    public override bool Passes(Job job) => Job.Engine.Valves.Index().All(v => IsIn(v.Item.Band, _numbers[v.Index]));

    private static bool IsIn(ClearanceBand band, double number) => number >= band.Low - 1e-9 && number <= band.High + 1e-9;
}

/// <summary>Knows every clearance exactly, but not how far a shim is off its mark.</summary>
internal sealed class ByTruth : Strategy
{
    public override void Note(Job job, IReadOnlyList<ValveReadings> readings)
    {
    }

    public override IReadOnlyList<Swap> Decide(Job job) =>
    [
        .. Job.Engine.Valves.Index()
            .Where(v => job.Clearances[v.Index] < v.Item.Band.Low || job.Clearances[v.Index] > v.Item.Band.High)
            .Select(v => new Swap(v.Index, job.Take(Shim.SizeNear(
                job.Fitted[v.Index].Nominal + job.Clearances[v.Index] - v.Item.Band.Middle)))),
    ];

    public override bool Passes(Job job) => job.IsRight;
}
