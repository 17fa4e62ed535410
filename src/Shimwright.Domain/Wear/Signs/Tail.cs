using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Wear.Signs;

/// <summary>Tail probabilities of standard normal numbers, and what choosing among several does to them.</summary>
internal static class Tail
{
    /// <summary>The chance of a number as great; 1 where there is none.</summary>
    public static double Above(double? z) => z is { } number ? StandardNormal.Cdf(-number) : 1;

    /// <summary>The chance of a number as far out on either side; 1 where there is none.</summary>
    public static double Beyond(double? z) => z is { } number ? 2 * StandardNormal.Cdf(-Math.Abs(number)) : 1;

    /// <summary>The smallest of several, for having looked at all of them (C. E. Bonferroni's bound).</summary>
    public static double OfChoice(double smallest, int among) => Math.Min(1, smallest * among);

    /// <summary>The smaller of two, for having looked at both.</summary>
    public static double OfBoth(double one, double other) => OfChoice(Math.Min(one, other), 2);
}
