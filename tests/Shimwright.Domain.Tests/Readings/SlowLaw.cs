using MathNet.Numerics.Distributions;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>The formulas of the model, written down once more and as plainly as they can be.</summary>
internal static class SlowLaw
{
    private const int StepsPerOwnLoss = 10;
    private const int StepsPerScale = 40;
    private const double OwnLosses = 25;

    public static double Phi(double z) => Normal.CDF(0, 1, z);

    /// <summary>
    /// Density of (w/4)·Z - x at the points first, first + spacing, …: the normal density averaged over the own loss x,
    /// cell by cell with the exponential's exact weights.
    /// </summary>
    public static double[] OwnDensity(double first, double spacing, int count, double width, double own)
    {
        double s = width / 4;
        double step = Math.Min(own / StepsPerOwnLoss, s / StepsPerScale);
        int cells = (int)(OwnLosses * own / step);
        double[] weights = [.. Enumerable.Range(0, cells).Select(k => Math.Exp(-k * step / own) - Math.Exp(-(k + 1) * step / own))];
        double centroid = own - (step / (Math.Exp(step / own) - 1));
        double[] density = new double[count];
        for (int i = 0; i < count; i++)
        {
            double y = first + (i * spacing);
            double sum = 0;

            // Only the losses that put Z within ten standard deviations.
            int from = (int)Math.Clamp(((-y - (10 * s)) / step) - 1, 0, cells);
            int to = (int)Math.Clamp(((-y + (10 * s)) / step) + 1, 0, cells);
            for (int k = from; k < to; k++)
            {
                double z = (y + (k * step) + centroid) / s;
                sum += weights[k] * Math.Exp(-z * z / 2);
            }

            density[i] = sum / (s * Math.Sqrt(2 * Math.PI));
        }

        return density;
    }

    /// <summary>ln of the chance of everything that was read at one valve, where its clearance at 20 °C is c.</summary>
    public static double LogLikelihood(double c, ValveReadings readings, EngineCheck check)
    {
        double gap = c + ((check.Engine.ClearancePerDegree ?? 0) * (check.Thermal.Temperature - 20));
        double log = 0;
        foreach (BladeTrial trial in readings.Trials)
        {
            log += Math.Log(ChanceOf(trial.Feel, gap - trial.Blade, trial.Leaves, check.Feel));
        }

        foreach (DirectValue value in readings.Values)
        {
            log -= Math.Pow((value.Millimetres - gap) / value.Uncertainty, 2) / 2;
        }

        foreach (bool turns in readings.BucketTurns)
        {
            double turning = (0.98 * Phi(gap / 0.010)) + 0.01;
            log += Math.Log(turns ? turning : 1 - turning);
        }

        return log;
    }

    public static double ChanceOf(Feel felt, double play, int leaves, FeelProfile feel)
    {
        double s = Math.Sqrt((feel.StandardDeviation * feel.StandardDeviation) + (leaves * feel.Blade * feel.Blade));
        double a = Phi((play - feel.Firm) / s);
        double b = Phi((play - feel.Light) / s);
        double c = Phi((play - feel.Loose) / s);
        double chance = felt switch
        {
            Feel.No => 1 - a,
            Feel.Firm => a - b,
            Feel.Light => b - c,
            _ => c,
        };

        // A profile without slips may call a reading impossible; a millionth of a millionth keeps the logarithm finite.
        return Math.Max(1e-12, ((1 - feel.Slip) * chance) + (feel.Slip / 4));
    }
}
