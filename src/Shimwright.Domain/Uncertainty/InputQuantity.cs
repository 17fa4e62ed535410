using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Uncertainty;

/// <summary>
/// One quantity that a result is computed from: its value with standard uncertainty and degrees of freedom
/// (JCGM 100:2008, 4.1.4 to 4.3). Two budgets that hold the same object share its error.
/// </summary>
public sealed class InputQuantity
{
    /// <summary>The fewest degrees of freedom that are taken.</summary>
    public const double FewestDegrees = 1;

    /// <summary>Makes a quantity.</summary>
    /// <param name="name">What it is called, not blank.</param>
    /// <param name="value">Its value, in any unit.</param>
    /// <param name="uncertainty">Its standard uncertainty in the same unit, 0 or more.</param>
    /// <param name="degrees">Its degrees of freedom, 1 or more; without bound where left out (JCGM 100:2008, G.4.3).</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="value"/>, <paramref name="uncertainty"/> or <paramref name="degrees"/> is outside its range.</exception>
    /// <exception cref="ArgumentException"><paramref name="name"/> is blank.</exception>
    public InputQuantity(string name, double value, double uncertainty, double degrees = double.PositiveInfinity)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        Name = name;
        Value = Guard.Finite(value);
        Uncertainty = Guard.Within(uncertainty, 0, double.MaxValue);
        Degrees = double.IsPositiveInfinity(degrees) ? degrees : Guard.Within(degrees, FewestDegrees, double.MaxValue);
    }

    /// <summary>What it is called.</summary>
    public string Name { get; }

    /// <summary>Its value.</summary>
    public double Value { get; }

    /// <summary>Its standard uncertainty.</summary>
    public double Uncertainty { get; }

    /// <summary>Its degrees of freedom; positive infinity where they have no bound.</summary>
    public double Degrees { get; }
}
