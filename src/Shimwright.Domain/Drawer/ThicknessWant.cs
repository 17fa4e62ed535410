using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Drawer;

/// <summary>
/// A valve that will want a shim: which thickness would put it in the middle of its band, how sure that is today, and how far off
/// the middle it may land.
/// </summary>
public sealed record ThicknessWant
{
    /// <summary>Makes a want.</summary>
    /// <param name="middle">Expected thickness for the middle of the band, mm.</param>
    /// <param name="spread">Standard deviation of that thickness as it is foreseen today, mm, above 0.</param>
    /// <param name="tolerance">How far off it a thickness may be, mm either way: half the band over the ratio; above 0.</param>
    /// <param name="chance">The chance that the valve will want one at all, 0 to 1.</param>
    public ThicknessWant(double middle, double spread, double tolerance, double chance = 1)
    {
        Middle = Guard.Finite(middle);
        Spread = Guard.Within(spread, 1e-6, 10);
        Tolerance = Guard.Within(tolerance, 1e-6, 10);
        Chance = Guard.Within(chance, 0, 1);
    }

    /// <summary>Expected thickness for the middle of the band, mm.</summary>
    public double Middle { get; }

    /// <summary>Standard deviation of that thickness as it is foreseen today, mm.</summary>
    public double Spread { get; }

    /// <summary>How far off it a thickness may be, mm.</summary>
    public double Tolerance { get; }

    /// <summary>The chance that the valve will want a shim at all.</summary>
    public double Chance { get; }
}
