using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>A clearance measured as a number; negative where a depth measurement found the valve held open.</summary>
public sealed record DirectValue
{
    /// <summary>The standard uncertainty that is taken where none is stated, mm.</summary>
    public const double UsualUncertainty = 0.010;

    /// <summary>The least and greatest standard uncertainty that is taken, mm.</summary>
    public const double LeastUncertainty = 0.001, GreatestUncertainty = 0.2;

    /// <summary>Makes a direct value.</summary>
    /// <param name="millimetres">The clearance found, mm.</param>
    /// <param name="uncertainty">Its standard uncertainty, mm, 0.001 to 0.2.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="millimetres"/> or <paramref name="uncertainty"/> is outside its range.</exception>
    public DirectValue(double millimetres, double uncertainty = UsualUncertainty)
    {
        Millimetres = Guard.Finite(millimetres);
        Uncertainty = Guard.Within(uncertainty, LeastUncertainty, GreatestUncertainty);
    }

    /// <summary>The clearance found, mm.</summary>
    public double Millimetres { get; }

    /// <summary>Its standard uncertainty, mm.</summary>
    public double Uncertainty { get; }
}
