using MathNet.Numerics;
using MathNet.Numerics.Optimization;
using MathNet.Numerics.RootFinding;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Rechecking;

/// <summary>How far a fitting landed from where it was expected.</summary>
/// <param name="Miss">Clearance read minus clearance expected, mm.</param>
/// <param name="Uncertainty">Standard uncertainty of that without the seating: of the gap before, of the two thicknesses and of the reading, mm.</param>
public readonly record struct FittingMiss(double Miss, double Uncertainty)
{
    private const double LeastGain = 1e-3;

    /// <summary>The standard deviation of the miss where shims seat this well.</summary>
    /// <param name="seating">The seating error, mm.</param>
    /// <returns>mm.</returns>
    public double StandardDeviationWith(double seating) => Squares.CombinedStandardUncertainty(seating, Uncertainty);

    /// <summary>
    /// The miss of a fitting from what was expected and from what was believed after the reading. The reading itself is
    /// what turned the one into the other: for normal laws the precisions subtract.
    /// </summary>
    /// <param name="expected">Expected clearance, mm.</param>
    /// <param name="expectedSpread">Its standard deviation, the seating included, mm.</param>
    /// <param name="after">Clearance believed after the reading, mm.</param>
    /// <param name="afterSpread">Its standard deviation, mm.</param>
    /// <param name="seating">The seating that was reckoned with, mm.</param>
    /// <returns>The miss; null where the reading said too little.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="expectedSpread"/>, <paramref name="afterSpread"/>, <paramref name="after"/> or <paramref name="expected"/> is not finite.</exception>
    public static FittingMiss? Of(double expected, double expectedSpread, double after, double afterSpread, double seating)
    {
        double prior = Squares.Of(Guard.Finite(expectedSpread));
        double posterior = Squares.Of(Guard.Finite(afterSpread));
        if (!(posterior > 0) || !(posterior < prior * (1 - LeastGain)))
        {
            return null;
        }

        double reading = 1 / ((1 / posterior) - (1 / prior));
        double read = reading * ((Guard.Finite(after) / posterior) - (Guard.Finite(expected) / prior));
        double other = Math.Max(0, prior - Squares.Of(seating));
        return new FittingMiss(read - expected, Math.Sqrt(reading + other));
    }
}

/// <summary>
/// The seating error that a bench's own fittings tell, by maximum likelihood: each miss is N(0, s² + u²), and with chance
/// 0.02 something else (wrong shim, dirt, a misread blade), N(0, 0.05²), so that one blunder does not stand for all
/// (both common practice, no source). The interval is that of the likelihood ratio, 95 %.
/// </summary>
public sealed record SeatingEstimate
{
    /// <summary>Fittings that are needed before anything is said. Common practice, no source.</summary>
    public const int LeastFittings = 30;

    /// <summary>The greatest seating that is looked for, mm.</summary>
    public const double Greatest = 0.05;

    private const double BlunderShare = 0.02, BlunderStandardDeviation = 0.05;

    /// <summary>Half the 95 % point of chi-squared with one degree of freedom.</summary>
    private const double Drop = 1.9207294;

    private const int Steps = 100;

    private SeatingEstimate(double seating, double low, double high, int fittings)
    {
        Seating = seating;
        Low = low;
        High = high;
        Fittings = fittings;
    }

    /// <summary>The likeliest seating error, standard deviation, mm.</summary>
    public double Seating { get; }

    /// <summary>Lower end of its 95 % interval, mm; 0 where it may be nothing.</summary>
    public double Low { get; }

    /// <summary>Upper end of its 95 % interval, mm.</summary>
    public double High { get; }

    /// <summary>How many fittings it rests on.</summary>
    public int Fittings { get; }

    /// <summary>Estimates the seating error; null while there are too few fittings.</summary>
    /// <param name="misses">The misses.</param>
    /// <returns>The estimate, or null.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="misses"/> is null.</exception>
    public static SeatingEstimate? Of(IReadOnlyList<FittingMiss> misses)
    {
        ArgumentNullException.ThrowIfNull(misses);
        if (misses.Count < LeastFittings)
        {
            return null;
        }

        double best = Top(misses);
        double top = LogLikelihood(misses, best);
        double Above(double seating) => LogLikelihood(misses, seating) - top + Drop;
        double low = best > 0 && Above(0) < 0 ? Brent.FindRoot(Above, 0, best, 1e-7, 200) : 0;
        double high = best < Greatest && Above(Greatest) < 0 ? Brent.FindRoot(Above, best, Greatest, 1e-7, 200) : Greatest;
        return new(best, low, high, misses.Count);
    }

    internal static double LogLikelihood(IReadOnlyList<FittingMiss> misses, double seating) => misses.Sum(m =>
    {
        double spread = m.StandardDeviationWith(seating);
        double blunder = Squares.CombinedStandardUncertainty(BlunderStandardDeviation, spread);
        return Math.Log(
            ((1 - BlunderShare) * StandardNormal.Density(m.Miss / spread) / spread)
            + (BlunderShare * StandardNormal.Density(m.Miss / blunder) / blunder));
    });

    /// <summary>A scan finds the highest hill, a golden section its top; at 0 the likelihood may only fall.</summary>
    private static double Top(IReadOnlyList<FittingMiss> misses)
    {
        double[] at = Generate.LinearSpaced(Steps + 1, 0, Greatest);
        int k = Enumerable.Range(0, at.Length).MaxBy(i => LogLikelihood(misses, at[i]));
        double low = at[Math.Max(0, k - 1)], high = at[Math.Min(Steps, k + 1)];
        double peak = GoldenSectionMinimizer.Minimum(
            ObjectiveFunction.ScalarValue(s => -LogLikelihood(misses, s)), low, high, 1e-8, 200).MinimizingPoint;
        return LogLikelihood(misses, 0) >= LogLikelihood(misses, peak) ? 0 : peak;
    }
}
