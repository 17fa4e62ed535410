using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.FeelCalibration;

/// <summary>One observation, or several alike, of an ordered category with its covariates.</summary>
public sealed record OrderedObservation
{
    /// <summary>Makes an observation.</summary>
    /// <param name="covariates">What the category may depend on, any number of finite values.</param>
    /// <param name="category">The category, from 0.</param>
    /// <param name="weight">How many observations it stands for, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="category"/> or <paramref name="weight"/> is outside its range.</exception>
    public OrderedObservation(IEnumerable<double> covariates, int category, double weight = 1)
    {
        Covariates = [.. covariates.Select(c => Guard.Finite(c))];
        ArgumentOutOfRangeException.ThrowIfNegative(category);
        Category = category;
        Weight = Guard.Within(weight, 0, double.MaxValue);
    }

    /// <summary>What the category may depend on.</summary>
    public IReadOnlyList<double> Covariates { get; }

    /// <summary>The category, from 0.</summary>
    public int Category { get; }

    /// <summary>How many observations it stands for.</summary>
    public double Weight { get; }
}
