using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Adjusting;

/// <summary>How well a change can be carried out: how a shim seats, and how a gap is set with a blade in it.</summary>
public sealed record Seating
{
    /// <summary>The least and greatest seating error that is taken, mm.</summary>
    public const double Least = 0, Greatest = 0.05;

    /// <summary>Standard uncertainty of a gap that is set with a blade in it, mm. Common practice, no source.</summary>
    public const double SettingFeel = 0.010;

    private const double LeastChangeUncertainty = 0.0002;

    /// <summary>Makes a seating.</summary>
    /// <param name="standardDeviation">How well a shim seats the way the last one did, mm, 0 to 0.05. Common practice, no source.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="standardDeviation"/> is outside its range.</exception>
    public Seating(double standardDeviation = 0.004) =>
        StandardDeviation = Guard.Within(standardDeviation, Least, Greatest);

    /// <summary>What is usual: 0.004 mm.</summary>
    public static Seating Usual { get; } = new();

    /// <summary>How well a shim seats, mm.</summary>
    public double StandardDeviation { get; }

    /// <summary>The standard deviation about its target of a gap that a screw sets, mm.</summary>
    public double ScrewUncertainty => Squares.CombinedStandardUncertainty(StandardDeviation, SettingFeel);

    /// <summary>The standard deviation with which a change of thickness moves a clearance, mm.</summary>
    /// <param name="atTheGap">The uncertainty of the difference of thicknesses, at the gap, mm.</param>
    /// <returns>The two together; at least 0.0002, which is finer than any shim seats.</returns>
    public double ChangeUncertainty(double atTheGap) =>
        Math.Max(LeastChangeUncertainty, Squares.CombinedStandardUncertainty(StandardDeviation, atTheGap));
}
