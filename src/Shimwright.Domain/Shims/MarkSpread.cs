using MathNet.Numerics.Distributions;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Shims;

/// <summary>
/// How far marks are from sizes, told from shims of which both are known: mean and standard deviation of the differences, each with
/// its 95 % interval (normal differences: Student's t for the mean, χ² for the deviation; NIST/SEMATECH e-Handbook of Statistical
/// Methods, sections 1.3.5.2 and 1.3.5.8).
/// </summary>
public sealed class MarkSpread
{
    /// <summary>The fewest shims that say anything about a spread.</summary>
    public const int Fewest = 5;

    private const double Tail = 0.025;

    private MarkSpread(int count, double mean, double deviation)
    {
        Count = count;
        Mean = mean;
        StandardDeviation = deviation;
        double reach = -StudentT.InvCDF(0, 1, count - 1, Tail) * deviation / Math.Sqrt(count);
        MeanInterval = (mean - reach, mean + reach);
        double sum = (count - 1) * Squares.Of(deviation);
        DeviationInterval = (Math.Sqrt(sum / ChiSquared.InvCDF(count - 1, 1 - Tail)), Math.Sqrt(sum / ChiSquared.InvCDF(count - 1, Tail)));
    }

    /// <summary>How many shims.</summary>
    public int Count { get; }

    /// <summary>Mean of size less mark, mm.</summary>
    public double Mean { get; }

    /// <summary>Standard deviation of the differences, mm.</summary>
    public double StandardDeviation { get; }

    /// <summary>95 % interval of the mean, mm.</summary>
    public (double Low, double High) MeanInterval { get; }

    /// <summary>95 % interval of the standard deviation, mm.</summary>
    public (double Low, double High) DeviationInterval { get; }

    /// <summary>What the differences tell; null where there are fewer than <see cref="Fewest"/>.</summary>
    /// <param name="differences">Size less mark of each shim, mm.</param>
    /// <returns>Mean and spread.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="differences"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException">One of <paramref name="differences"/> is not finite.</exception>
    public static MarkSpread? Of(IReadOnlyList<double> differences)
    {
        ArgumentNullException.ThrowIfNull(differences);
        if (differences.Count < Fewest)
        {
            return null;
        }

        double mean = differences.Average(d => Guard.Finite(d, nameof(differences)));
        return new(differences.Count, mean, Math.Sqrt(differences.Sum(d => Squares.Of(d - mean)) / (differences.Count - 1)));
    }

    /// <summary>The standard deviation that differences would have if marks and the micrometer were as they are taken to be.</summary>
    /// <param name="marked">The instrument that stands for marks.</param>
    /// <param name="micrometer">The micrometer; its shared part moves all differences alike and is none of their spread.</param>
    /// <returns>mm.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="marked"/> or <paramref name="micrometer"/> is null.</exception>
    public static double Expected(Instrument marked, Instrument micrometer)
    {
        ArgumentNullException.ThrowIfNull(marked);
        ArgumentNullException.ThrowIfNull(micrometer);
        return Squares.CombinedStandardUncertainty(marked.Random, micrometer.Random);
    }
}
