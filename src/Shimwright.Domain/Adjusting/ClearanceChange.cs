using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Adjusting;

/// <summary>
/// What an adjustment does to a clearance. A shim moves it: c' = c + ρ·(s_old - s_new) + N(0, u²), where u joins the seating
/// and the difference of thicknesses. A screw sets it by feel: c' is N(target, u²), whatever c was. The default changes nothing.
/// </summary>
public readonly record struct ClearanceChange
{
    private ClearanceChange(double shift, double uncertainty, bool isSet)
    {
        Shift = shift;
        Uncertainty = uncertainty;
        IsSet = isSet;
    }

    /// <summary>Intended change of the clearance, mm.</summary>
    public double Shift { get; }

    /// <summary>Standard deviation of the change, or of a gap that is set about its target, mm.</summary>
    public double Uncertainty { get; }

    /// <summary>Whether a screw is set, so that the gap before says nothing about the gap after.</summary>
    public bool IsSet { get; }

    /// <summary>A clearance that is moved.</summary>
    /// <param name="shift">Intended change, mm.</param>
    /// <param name="uncertainty">Standard deviation of the change, mm, above 0.</param>
    /// <returns>The change.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="shift"/> is not finite, or <paramref name="uncertainty"/> is not above 0.</exception>
    public static ClearanceChange By(double shift, double uncertainty) =>
        new(Guard.Finite(shift), Guard.Within(uncertainty, double.Epsilon, double.MaxValue), isSet: false);

    /// <summary>What fitting another thickness does.</summary>
    /// <param name="leverage">ρ.</param>
    /// <param name="from">The thickness that comes out.</param>
    /// <param name="to">The thickness that goes in.</param>
    /// <param name="seating">How well a shim seats.</param>
    /// <returns>The change.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="leverage"/>, <paramref name="from"/>, <paramref name="to"/> or <paramref name="seating"/> is null.</exception>
    public static ClearanceChange Fitting(Leverage leverage, Thickness from, Thickness to, Seating seating)
    {
        ArgumentNullException.ThrowIfNull(leverage);
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(seating);
        ThicknessDifference difference = from.Minus(to);
        return By(leverage.AtTheGap(difference.Millimetres), seating.ChangeUncertainty(leverage.AtTheGap(difference.Uncertainty)));
    }

    /// <summary>What turning a screw does, with a blade in the gap.</summary>
    /// <param name="train">A valve train with screws.</param>
    /// <param name="turns">Turns, positive for more clearance.</param>
    /// <param name="seating">How well a gap is set.</param>
    /// <returns>The change.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="train"/> or <paramref name="seating"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="turns"/> is not finite.</exception>
    public static ClearanceChange Turning(Valvetrain train, double turns, Seating seating)
    {
        ArgumentNullException.ThrowIfNull(seating);
        return Set(ScrewSetting.ClearancePerTurn(train) * Guard.Finite(turns), seating);
    }

    /// <summary>What lifting the camshaft and laying it down once more does to a valve that is left as it is.</summary>
    /// <param name="seating">How well a shim seats.</param>
    /// <returns>The change.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="seating"/> is null.</exception>
    public static ClearanceChange SeatedAnew(Seating seating)
    {
        ArgumentNullException.ThrowIfNull(seating);
        return By(0, seating.ChangeUncertainty(0));
    }

    /// <summary>What an adjustment does.</summary>
    /// <param name="adjustment">The adjustment.</param>
    /// <param name="train">The valve train.</param>
    /// <param name="seating">How well it is carried out.</param>
    /// <returns>The change.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="adjustment"/>, <paramref name="train"/> or <paramref name="seating"/> is null.</exception>
    public static ClearanceChange Of(Adjustment adjustment, Valvetrain train, Seating seating)
    {
        ArgumentNullException.ThrowIfNull(adjustment);
        return adjustment.IsSeatedAnew ? SeatedAnew(seating)
            : adjustment is { From: { } from, To: { } to } ? Fitting(Leverage.Of(train), from, to, seating)
            : Turning(train, adjustment.Turns, seating);
    }

    internal static ClearanceChange Set(double shift, Seating seating) => new(shift, seating.ScrewUncertainty, isSet: true);
}
