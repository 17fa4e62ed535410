using MathNet.Numerics.Distributions;

namespace Shimwright.Domain.Numerics;

/// <summary>
/// A share that was counted, with the interval in which the chance behind it lies: exact, so that it holds its word for a few
/// trials too (C. J. Clopper and E. S. Pearson, Biometrika 26 (1934) 404).
/// </summary>
public readonly record struct BinomialShare
{
    /// <summary>Makes a share.</summary>
    /// <param name="count">How often it happened, 0 to <paramref name="trials"/>.</param>
    /// <param name="trials">How often it could have, 1 or more.</param>
    /// <param name="confidence">Of the interval, above 0 and below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="trials"/>, <paramref name="count"/> or <paramref name="confidence"/> is outside its range.</exception>
    public BinomialShare(int count, int trials, double confidence = 0.95)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(trials, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(count, trials);
        double tail = (1 - Guard.Within(confidence, 0, 1)) / 2;
        Count = count;
        Trials = trials;
        Low = count == 0 ? 0 : Beta.InvCDF(count, trials - count + 1, tail);
        High = count == trials ? 1 : Beta.InvCDF(count + 1, trials - count, 1 - tail);
    }

    /// <summary>How often it happened.</summary>
    public int Count { get; }

    /// <summary>How often it could have.</summary>
    public int Trials { get; }

    /// <summary>The share.</summary>
    public double Share => Trials == 0 ? 0 : (double)Count / Trials;

    /// <summary>The interval's lower end.</summary>
    public double Low { get; }

    /// <summary>The interval's upper end.</summary>
    public double High { get; }
}
