using MathNet.Numerics.Distributions;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>The formulas of the model, written down once more and as plainly as they can be.</summary>
internal static class SlowLaw
{
    private const int ErrorSteps = 30;

    public static double Phi(double z) => Normal.CDF(0, 1, z);

    /// <summary>
    /// Density of y = s·Z - l·G - x, G gamma with shape 2 and mean 1, x exponential: partial fractions of the three
    /// exponentials that l·G + x is the sum of, each against the normal density in closed form.
    /// </summary>
    public static double PlaceDensity(double y, double s, double own, double l)
    {
        if (l < 1e-3 * s)
        {
            // So small beside the bell that its spread says nothing; the fractions below would cancel to noise.
            return Against(1 / own, -y - l, s) / own;
        }

        (double a, double b) = (2 / l, 1 / own);
        double t = -y;
        double c = a * a * b / ((a - b) * (a - b));
        double d = a * a * b / (b - a);
        double ka = Against(a, t, s);
        double kb = Against(b, t, s);
        double density = Math.Exp(-t * t / (2 * s * s)) / (s * Math.Sqrt(2 * Math.PI));
        return (c * (kb - ka)) + (d * (((t - (a * s * s)) * ka) + (s * s * density)));
    }

    /// <summary>ln of the chance of all that was felt at a valve whose gap the fingers take for this.</summary>
    public static double LogFelt(double gap, ValveReadings readings, FeelProfile feel) =>
        readings.Trials.GroupBy(t => (t.Blade, t.Leaves)).Sum(blade => Math.Log(ChanceOf([.. blade], gap, feel)));

    /// <summary>ln of the chance of all else that was read at a valve whose gap is this.</summary>
    public static double LogRead(double gap, ValveReadings readings)
    {
        double log = -readings.Values.Sum(value => Math.Pow((value.Millimetres - gap) / value.Uncertainty, 2) / 2);
        foreach (bool turns in readings.BucketTurns)
        {
            double turning = (0.98 * Phi(gap / 0.010)) + 0.01;
            log += Math.Log(turns ? turning : 1 - turning);
        }

        return log;
    }

    /// <summary>The chance of all trials of one blade: the blade's error is the same in all of them.</summary>
    public static double ChanceOf(IReadOnlyList<BladeTrial> trials, double gap, FeelProfile feel)
    {
        double error = Math.Sqrt(trials[0].Leaves) * feel.Blade;
        if (trials.Count == 1 || error == 0)
        {
            double s = Math.Sqrt((feel.StandardDeviation * feel.StandardDeviation) + (error * error));
            return trials.Aggregate(1.0, (p, t) => p * ChanceOf(t.Feel, gap - t.Blade, s, feel));
        }

        double sum = 0;
        double total = 0;
        for (int k = 0; k <= ErrorSteps; k++)
        {
            double z = -6 + (12.0 * k / ErrorSteps);
            double weight = Math.Exp(-z * z / 2);
            total += weight;
            sum += weight * trials.Aggregate(1.0, (p, t) => p * ChanceOf(t.Feel, gap - t.Blade + (z * error), feel.StandardDeviation, feel));
        }

        return sum / total;
    }

    public static double ChanceOf(Feel felt, double play, int leaves, FeelProfile feel) =>
        ChanceOf(felt, play, Math.Sqrt((feel.StandardDeviation * feel.StandardDeviation) + (leaves * feel.Blade * feel.Blade)), feel);

    private static double ChanceOf(Feel felt, double play, double s, FeelProfile feel)
    {
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

    /// <summary>∫ e^(-rate·u) over u above 0 against a normal density about t - u, without overflow.</summary>
    private static double Against(double rate, double t, double s)
    {
        double z = (t / s) - (rate * s);
        double logPhi = z > -10
            ? Math.Log(Phi(z))
            : (-z * z / 2) - Math.Log(-z * Math.Sqrt(2 * Math.PI)) + Math.Log(1 - (1 / (z * z)) + (3 / (z * z * z * z)));
        return Math.Exp((-rate * t) + (rate * rate * s * s / 2) + logPhi);
    }
}
