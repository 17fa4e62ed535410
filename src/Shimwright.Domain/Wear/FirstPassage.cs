using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Wear;

/// <summary>
/// When a clearance that drifts and strays first reaches a limit: the first passage of a Wiener process with drift, the
/// inverse Gaussian law (R. S. Chhikara and J. L. Folks, The Inverse Gaussian Distribution, 1989, section 2.1).
/// With a = (rt - d)/√(qt), z = (rt + d)/√(qt) and Mills' ratio M the chance Φ(a) + e^{2rd/q}·Φ(-z) is Φ(a) + φ(a)·M(z),
/// since e^{2rd/q}·φ(z) = φ(a): nothing overflows, and both tails keep their digits.
/// </summary>
public static class FirstPassage
{
    /// <summary>Beyond this a reflected path is followed from its own factor, which is at most 1 there.</summary>
    private const double FarBack = -6;

    /// <summary>The chance that the limit is reached by a time.</summary>
    /// <param name="distance">d, how far the limit is away, mm; at 0 or below it has been reached.</param>
    /// <param name="rate">r, the drift towards the limit, mm per hour or km.</param>
    /// <param name="diffusion">q, mm² per hour or km, 0 or more.</param>
    /// <param name="time">t, hours or km, 0 or more.</param>
    /// <returns>P(T ≤ t).</returns>
    public static double Chance(double distance, double rate, double diffusion, double time)
    {
        if (distance <= 0)
        {
            return 1;
        }

        return diffusion * time > 0
            ? Math.Exp(Math.Min(0, LogChance(distance, rate, diffusion, time)))
            : rate * time >= distance ? 1 : 0;
    }

    /// <summary>ln P(T ≤ t), also where the chance itself underflows; distance, diffusion and time above 0.</summary>
    /// <param name="distance">d, mm, above 0.</param>
    /// <param name="rate">r, mm per hour or km.</param>
    /// <param name="diffusion">q, mm² per hour or km, above 0.</param>
    /// <param name="time">t, hours or km, above 0.</param>
    /// <returns>The logarithm.</returns>
    public static double LogChance(double distance, double rate, double diffusion, double time)
    {
        double root = Math.Sqrt(diffusion * time);
        double a = ((rate * time) - distance) / root;
        double z = ((rate * time) + distance) / root;
        if (a > 0)
        {
            return LogOneMinus(LogSurvival(distance, rate, diffusion, time));
        }

        return z < FarBack
            ? LogSum(StandardNormal.LogCdf(a), (2 * rate * distance / diffusion) + StandardNormal.LogCdf(-z))
            : StandardNormal.LogDensity(a) + Math.Log(Ratio(-a) + Ratio(z));
    }

    /// <summary>ln P(T > t), also where the chance itself underflows; distance, diffusion and time above 0.</summary>
    /// <param name="distance">d, mm, above 0.</param>
    /// <param name="rate">r, mm per hour or km.</param>
    /// <param name="diffusion">q, mm² per hour or km, above 0.</param>
    /// <param name="time">t, hours or km, above 0.</param>
    /// <returns>The logarithm.</returns>
    public static double LogSurvival(double distance, double rate, double diffusion, double time)
    {
        double root = Math.Sqrt(diffusion * time);
        double a = ((rate * time) - distance) / root;
        double z = ((rate * time) + distance) / root;
        return a > 0
            ? StandardNormal.LogDensity(a) + Math.Log(Ratio(a) - Ratio(z))
            : LogOneMinus(LogChance(distance, rate, diffusion, time));
    }

    /// <summary>
    /// The same chance from tables, to 1e-8, where it is wanted a million times; qt above 0. Below a distance of 0 it goes on
    /// smoothly instead of staying at 1, for rules that look past the limit.
    /// </summary>
    internal static double ChanceFromTable(double distance, double rate, double time, double root)
    {
        double a = ((rate * time) - distance) / root;
        double z = ((rate * time) + distance) / root;
        if (a > 9)
        {
            return 1;
        }

        if (a < -9)
        {
            return 0;
        }

        double mills = MillsTable.At(Math.Max(FarBack, z));
        return NormalTable.Cdf(a) + (StandardNormal.Density(a) * mills);
    }

    private static double Ratio(double z) => StandardNormal.Mills(z);

    private static double LogSum(double one, double other) =>
        Math.Max(one, other) + double.LogP1(Math.Exp(-Math.Abs(one - other)));

    private static double LogOneMinus(double log) => log > -0.69 ? Math.Log(-double.ExpM1(log)) : double.LogP1(-Math.Exp(log));
}
