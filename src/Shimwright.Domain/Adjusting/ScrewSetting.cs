using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Adjusting;

/// <summary>
/// A screw set by feel, with a blade in the gap: the gap is known about its target, whatever it was before. The target is
/// the middle of the band, where the chance of being in band is greatest.
/// </summary>
public sealed record ScrewSetting
{
    private const double FlatsPerTurn = 6;
    private const double Central = 0.975;

    private ScrewSetting(ClearanceBand band, double mean, Valvetrain train, Seating seating)
    {
        Band = band;
        Change = ClearanceChange.Set(Target - mean, seating);
        Turns = Change.Shift / ClearancePerTurn(train);
    }

    /// <summary>The band of the valve.</summary>
    public ClearanceBand Band { get; }

    /// <summary>The gap that is set, mm.</summary>
    public double Target => Band.Middle;

    /// <summary>What it does to the clearance.</summary>
    public ClearanceChange Change { get; }

    /// <summary>Turns of the screw, positive for more clearance.</summary>
    public double Turns { get; }

    /// <summary>The chance that the gap is set in the band.</summary>
    public double InBand => Landing.InBandOff(Band, 0, Change.Uncertainty);

    /// <summary>The setting of a valve.</summary>
    /// <param name="band">Its band.</param>
    /// <param name="mean">The clearance that is expected of it now, mm.</param>
    /// <param name="train">A valve train with screws.</param>
    /// <param name="seating">How well a gap is set.</param>
    /// <returns>The setting.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="band"/>, <paramref name="train"/> or <paramref name="seating"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="mean"/> is not finite.</exception>
    public static ScrewSetting Of(ClearanceBand band, double mean, Valvetrain train, Seating seating)
    {
        ArgumentNullException.ThrowIfNull(band);
        ArgumentNullException.ThrowIfNull(train);
        ArgumentNullException.ThrowIfNull(seating);
        return new(band, Guard.Finite(mean), train, seating);
    }

    /// <summary>Clearance gained at the gap by one turn of the screw, mm; 0 where there is none.</summary>
    /// <param name="train">The valve train.</param>
    /// <returns>ρ times the pitch.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="train"/> is null.</exception>
    public static double ClearancePerTurn(Valvetrain train)
    {
        ArgumentNullException.ThrowIfNull(train);
        return Leverage.Of(train).AtTheGap(train.Pitch ?? 0);
    }

    /// <summary>Turns in flats of the screw's or nut's hexagon.</summary>
    /// <param name="turns">Turns.</param>
    /// <returns>Sixths of a turn.</returns>
    public static double Flats(double turns) => turns * FlatsPerTurn;

    /// <summary>What is known of the gap once it is set.</summary>
    /// <param name="inBand">The chance of being in band that is to stand beside it.</param>
    /// <returns>The estimate.</returns>
    public ClearanceEstimate Then(double inBand)
    {
        double reach = StandardNormal.Quantile(Central) * Change.Uncertainty;
        return new(Target, Change.Uncertainty, Target - reach, Target + reach, inBand);
    }
}
