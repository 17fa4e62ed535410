using MathNet.Numerics;

namespace Shimwright.Domain.Numerics;

/// <summary>The standard normal law: density, distribution function, and its logarithm with the far tail.</summary>
public static class StandardNormal
{
    private const double FarTail = -30;

    /// <summary>Beyond these, Φ is 1 or 0 to the last bit of a double.</summary>
    private const double RoundsToOne = 8.3, RoundsToZero = -38.5;

    private static readonly double LogSqrtTwoPi = 0.5 * Math.Log(2 * Math.PI);

    /// <summary>Density at <paramref name="z"/>.</summary>
    public static double Density(double z) => Math.Exp((-0.5 * z * z) - LogSqrtTwoPi);

    /// <summary>Φ(z), the chance of a value at or below <paramref name="z"/>; in [0, 1].</summary>
    public static double Cdf(double z) => z switch
    {
        >= RoundsToOne => 1,
        <= RoundsToZero => 0,
        _ => 0.5 * SpecialFunctions.Erfc(-z / Constants.Sqrt2),
    };

    /// <summary>The chance of a value in (<paramref name="low"/>, <paramref name="high"/>], without cancellation in either tail.</summary>
    public static double Between(double low, double high) =>
        low > 0 ? Cdf(-low) - Cdf(-high) : Cdf(high) - Cdf(low);

    /// <summary>The z with Φ(z) = <paramref name="probability"/>, for a probability inside (0, 1).</summary>
    public static double Quantile(double probability) =>
        -Constants.Sqrt2 * SpecialFunctions.ErfcInv(2 * probability);

    /// <summary>Mills' ratio Φ(-z)/φ(z), which neither overflows nor underflows for <paramref name="z"/> from -37 on.</summary>
    public static double Mills(double z) => Math.Exp(LogCdf(-z) + (0.5 * z * z) + LogSqrtTwoPi);

    /// <summary>
    /// ln Φ(z), also where Φ(z) itself underflows.
    /// Below -30: the asymptotic series of Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.12.
    /// </summary>
    public static double LogCdf(double z)
    {
        if (z > FarTail)
        {
            return Math.Log(Cdf(z));
        }

        double t = 1 / (z * z);
        double series = 1 - (t * (1 - (3 * t * (1 - (5 * t * (1 - (7 * t)))))));
        return (-0.5 * z * z) - LogSqrtTwoPi - Math.Log(-z) + Math.Log(series);
    }
}
