using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>What a valve's readings say about its clearance at 20 °C, on a grid.</summary>
internal static class Likelihood
{
    /// <summary>
    /// How far, in logarithms, a clearance may fall behind the likeliest one: a reading that contradicts everything else
    /// then leaves what was known before instead of nothing at all.
    /// </summary>
    internal const double LeastLog = -300;

    /// <summary>
    /// The likelihood at each point, scaled so that its greatest value is 1. Readings are independent given the
    /// clearance; their logarithms are added, so that many readings do not underflow.
    /// </summary>
    public static double[] On(UniformGrid grid, ValveReadings readings, ThermalShift thermal, FeelProfile feel)
    {
        double[] log = new double[grid.Count];
        AddLog(log, grid, readings, thermal, feel);
        Raise(log);
        return log;
    }

    /// <summary>From logarithms to likelihoods, scaled so that the greatest is 1.</summary>
    public static void Raise(Span<double> log)
    {
        double peak = double.NegativeInfinity;
        foreach (double l in log)
        {
            peak = Math.Max(peak, l);
        }

        for (int i = 0; i < log.Length; i++)
        {
            log[i] = Math.Exp(Math.Max(LeastLog, log[i] - peak));
        }
    }

    /// <summary>Adds ln of the likelihood at each point, up to a constant.</summary>
    public static void AddLog(Span<double> log, UniformGrid grid, ValveReadings readings, ThermalShift thermal, FeelProfile feel)
    {
        foreach (BladeTrial trial in readings.Trials)
        {
            Add(log, grid, thermal, gap => Math.Log(feel.Chance(trial.Feel, gap, trial.Blade, trial.Leaves)));
        }

        foreach (DirectValue value in readings.Values)
        {
            Add(log, grid, thermal, gap => -0.5 * Squares.Of((value.Millimetres - gap) / value.Uncertainty));
        }

        foreach (bool turns in readings.BucketTurns)
        {
            Add(log, grid, thermal, gap => Math.Log(turns
                ? FeelProfile.ChanceBucketTurns(gap)
                : 1 - FeelProfile.ChanceBucketTurns(gap)));
        }
    }

    private static void Add(Span<double> log, UniformGrid grid, ThermalShift thermal, Func<double, double> logOf)
    {
        for (int i = 0; i < log.Length; i++)
        {
            log[i] += logOf(grid.At(i) + thermal.Millimetres);
        }
    }
}
