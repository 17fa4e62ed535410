using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Rechecking;

/// <summary>
/// How unlikely a re-check was under its prediction: the chance of a reading that is no likelier than the one made.
/// </summary>
internal static class Surprise
{
    /// <summary>The trials that are counted: the last of them.</summary>
    private const int MostTrials = 5;

    /// <summary>Rounding within which two chances count as equal.</summary>
    private const double Slack = 1e-9;

    private static readonly Feel[] Feels = Enum.GetValues<Feel>();

    public static double? Of(ClearanceDistribution predicted, ValveReadings readings, ThermalShift thermal, FeelProfile feel)
    {
        double? ofValue = readings.CombinedValue() is { } value
            ? OfValue(predicted, value.Millimetres - thermal.Millimetres, value.Uncertainty)
            : null;
        double? ofTrials = readings.Trials.Count > 0
            ? OfTrials(predicted, [.. readings.Trials.TakeLast(MostTrials)], thermal, feel)
            : null;
        return ofValue is { } a && ofTrials is { } b
            ? Math.Min(1, 2 * Math.Min(a, b))
            : ofValue ?? ofTrials;
    }

    private static double OfValue(ClearanceDistribution predicted, double value, double uncertainty)
    {
        double spread = Squares.CombinedStandardUncertainty(predicted.StandardDeviation, uncertainty);
        return 2 * StandardNormal.Cdf(-Math.Abs(value - predicted.Mean) / spread);
    }

    private static double OfTrials(ClearanceDistribution predicted, BladeTrial[] trials, ThermalShift thermal, FeelProfile feel)
    {
        // One row a trial and feel: the chance of that feel at each clearance.
        double[][][] chances = [.. trials.Select(t => Feels.Select(f => Chances(predicted, t, f, thermal, feel)).ToArray())];
        double[] felt = predicted.Mass.ToArray();
        for (int t = 0; t < trials.Length; t++)
        {
            Multiply(felt, chances[t][(int)trials[t].Feel]);
        }

        return NoLikelier(predicted.Mass.ToArray(), chances, 0, felt.Sum() * (1 + Slack));
    }

    /// <summary>The chance of all outcomes of the trials from number <paramref name="next"/> on that are no likelier than the limit.</summary>
    private static double NoLikelier(double[] mass, double[][][] chances, int next, double limit)
    {
        if (next == chances.Length)
        {
            double chance = mass.Sum();
            return chance <= limit ? chance : 0;
        }

        double sum = 0;
        foreach (double[] feel in chances[next])
        {
            double[] joint = (double[])mass.Clone();
            Multiply(joint, feel);
            sum += NoLikelier(joint, chances, next + 1, limit);
        }

        return sum;
    }

    private static double[] Chances(ClearanceDistribution predicted, BladeTrial trial, Feel felt, ThermalShift thermal, FeelProfile feel) =>
        Array.ConvertAll(predicted.Grid.Points(), c => feel.Chance(felt, c + thermal.Millimetres, trial.Blade, trial.Leaves));

    private static void Multiply(double[] target, double[] factors)
    {
        for (int i = 0; i < target.Length; i++)
        {
            target[i] *= factors[i];
        }
    }
}
