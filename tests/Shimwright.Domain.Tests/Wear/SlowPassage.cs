using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Tests.Wear;

/// <summary>The chance of a first passage as it is written down, Φ(a) + e^{2rd/q}·Φ(-z), its factor in logarithms: no tables.</summary>
internal static class SlowPassage
{
    public static double Chance(double distance, double rate, double diffusion, double time)
    {
        if (distance <= 0)
        {
            return 1;
        }

        double root = Math.Sqrt(diffusion * time);
        return StandardNormal.Cdf(((rate * time) - distance) / root)
            + Math.Exp((2 * rate * distance / diffusion) + StandardNormal.LogCdf(-((rate * time) + distance) / root));
    }
}
