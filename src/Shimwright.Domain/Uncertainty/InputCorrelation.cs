using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Uncertainty;

/// <summary>That the errors of two lines of a budget go together.</summary>
public sealed record InputCorrelation
{
    /// <summary>Makes a correlation.</summary>
    /// <param name="first">Place of one line in the budget, from 0.</param>
    /// <param name="second">Place of another line.</param>
    /// <param name="coefficient">From -1 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="first"/>, <paramref name="second"/> or <paramref name="coefficient"/> is outside its range.</exception>
    public InputCorrelation(int first, int second, double coefficient)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(first);
        ArgumentOutOfRangeException.ThrowIfNegative(second);
        ArgumentOutOfRangeException.ThrowIfEqual(second, first);
        First = first;
        Second = second;
        Coefficient = Guard.Within(coefficient, -1, 1);
    }

    /// <summary>Place of one line.</summary>
    public int First { get; }

    /// <summary>Place of the other line.</summary>
    public int Second { get; }

    /// <summary>The correlation coefficient.</summary>
    public double Coefficient { get; }
}
