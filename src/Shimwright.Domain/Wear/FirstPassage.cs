using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Wear;

/// <summary>
/// When a clearance that drifts and strays first reaches a limit: the first passage of a Wiener process with drift, the
/// inverse Gaussian law (R. S. Chhikara and J. L. Folks, The Inverse Gaussian Distribution, 1989, section 2.1).
/// With a = (rt - d)/√(qt), z = (rt + d)/√(qt) and Mills' ratio M the chance Φ(a) + e^{2rd/q}·Φ(-z) is Φ(a) + φ(a)·M(z),
/// since e^{2rd/q}·φ(z) = φ(a): nothing overflows.
/// </summary>
internal static class FirstPassage
{
    /// <summary>So far past the limit, in z, Mills' ratio stays as it is.</summary>
    private const double FarBack = -6;

    /// <summary>
    /// The chance that the limit is reached by a time, from tables, to 1e-8: where it is wanted a million times. Below a distance
    /// of 0 it goes on smoothly instead of staying at 1, for rules that look past the limit.
    /// </summary>
    /// <param name="distance">d, how far the limit is away, mm.</param>
    /// <param name="rate">r, the drift towards the limit, mm per hour or km, 0 or more.</param>
    /// <param name="time">t, hours or km.</param>
    /// <param name="root">√(qt), mm, above 0.</param>
    public static double ChanceFromTable(double distance, double rate, double time, double root)
    {
        double a = ((rate * time) - distance) / root;
        double z = ((rate * time) + distance) / root;
        return Reached(a, z);
    }

    /// <summary>
    /// The same where the drift is N(rate, spread²), whatever its sign. With v = qt + (spread·t)², a = (rt - d)/√v and z = (rt + d + 2d(spread·t)²/(qt))/√v
    /// it is Φ(a) + φ(a)·M(z) again: the average of Φ over a normal drift is Φ, and e^{2rd/q} shifts the drift by 2d·spread²/q.
    /// </summary>
    /// <param name="distance">d, how far the limit is away, mm.</param>
    /// <param name="rate">The mean of the drift, 0 or more.</param>
    /// <param name="spread">Its standard deviation.</param>
    /// <param name="time">t, hours or km.</param>
    /// <param name="root">√(qt), mm, above 0.</param>
    public static double ChanceFromTable(double distance, double rate, double spread, double time, double root)
    {
        double drifts = Squares.Of(spread * time), strays = Squares.Of(root);
        double wide = Math.Sqrt(strays + drifts);
        return Reached(((rate * time) - distance) / wide, ((rate * time) + distance + (2 * distance * drifts / strays)) / wide);
    }

    private static double Reached(double a, double z)
    {
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
}
