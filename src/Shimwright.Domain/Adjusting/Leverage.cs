using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Adjusting;

/// <summary>ρ: what a millimetre of shim or of screw travel is at the gap, and back.</summary>
public sealed record Leverage
{
    /// <summary>Makes a leverage.</summary>
    /// <param name="ratio">Clearance change at the gap per unit of shim or screw travel, 0.1 to 5.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="ratio"/> is outside its range.</exception>
    public Leverage(double ratio) => Ratio = Guard.Within(ratio, Valvetrain.LeastRatio, Valvetrain.GreatestRatio);

    /// <summary>Clearance change at the gap per unit of shim or screw travel.</summary>
    public double Ratio { get; }

    /// <summary>The leverage of a valve train.</summary>
    /// <param name="train">The valve train.</param>
    /// <returns>Its ρ.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="train"/> is null.</exception>
    public static Leverage Of(Valvetrain train)
    {
        ArgumentNullException.ThrowIfNull(train);
        return new(train.Ratio);
    }

    /// <summary>What a thickness, or its uncertainty, is at the gap.</summary>
    /// <param name="thickness">mm of shim; clearance is gained where the shim gets thinner by it.</param>
    /// <returns>mm of clearance.</returns>
    public double AtTheGap(double thickness) => Ratio * thickness;

    /// <summary>The change of thickness that is worth a clearance.</summary>
    /// <param name="clearance">mm at the gap.</param>
    /// <returns>mm of shim.</returns>
    public double AtTheShim(double clearance) => clearance / Ratio;

    /// <summary>The thickness that would bring a clearance to a target.</summary>
    /// <param name="fitted">The thickness that is fitted, mm.</param>
    /// <param name="clearance">The clearance with it, mm.</param>
    /// <param name="target">The clearance wanted, mm.</param>
    /// <returns>mm.</returns>
    public double Wanted(double fitted, double clearance, double target) => fitted + AtTheShim(clearance - target);
}
