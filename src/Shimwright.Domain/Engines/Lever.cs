using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Engines;

/// <summary>An end of a finger or rocker.</summary>
public enum LeverEnd
{
    /// <summary>Where the cam, or the push rod, drives it.</summary>
    Cam,

    /// <summary>Where it drives the valve.</summary>
    Valve,
}

/// <summary>
/// A finger or rocker: with R the lift at the valve for each unit of lift at the cam, what moves the valve's end by R moves the
/// cam's end by 1. So ρ, the change of the gap for each unit of shim or screw travel, is 1 where both sit at the same end, 1/R
/// from the valve's end to a gap at the cam, and R from the cam's end to a gap at the valve. Geometry of a rigid lever.
/// </summary>
public sealed record Lever
{
    /// <summary>The least and greatest ratio of lifts that is taken.</summary>
    public const double Least = 0.5, Greatest = 2.5;

    /// <summary>Makes a lever.</summary>
    /// <param name="liftRatio">R: lift at the valve for each unit of lift at the cam, 0.5 to 2.5.</param>
    /// <param name="adjustedAt">The end at which shim or screw sits.</param>
    /// <param name="feltAt">The end at which the gap is felt.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="liftRatio"/> is outside its range, or an end is none.</exception>
    public Lever(double liftRatio, LeverEnd adjustedAt, LeverEnd feltAt)
    {
        LiftRatio = Guard.Within(liftRatio, Least, Greatest);
        AdjustedAt = Enum.IsDefined(adjustedAt) ? adjustedAt : throw new ArgumentOutOfRangeException(nameof(adjustedAt));
        FeltAt = Enum.IsDefined(feltAt) ? feltAt : throw new ArgumentOutOfRangeException(nameof(feltAt));
    }

    /// <summary>R: lift at the valve for each unit of lift at the cam.</summary>
    public double LiftRatio { get; }

    /// <summary>The end at which shim or screw sits.</summary>
    public LeverEnd AdjustedAt { get; }

    /// <summary>The end at which the gap is felt.</summary>
    public LeverEnd FeltAt { get; }

    /// <summary>ρ: the change of the gap for each unit of shim or screw travel.</summary>
    public double Ratio => TravelAt(FeltAt) / TravelAt(AdjustedAt);

    private double TravelAt(LeverEnd end) => end == LeverEnd.Valve ? LiftRatio : 1;
}
