using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Planning;

/// <summary>What a plan may do, and how well a change can be carried out.</summary>
public sealed record PlanRules
{
    /// <summary>The least and greatest seating error, mm.</summary>
    public const double LeastSeating = 0, GreatestSeating = 0.05;

    /// <summary>Standard uncertainty of a gap that is set with a blade in it, mm. Common practice, no source.</summary>
    public const double SettingFeel = 0.010;

    private const double LeastChangeUncertainty = 0.0002;

    /// <summary>Makes the rules.</summary>
    /// <param name="keepFloor">The least chance of being in band with which a valve may be left alone.</param>
    /// <param name="fitFloor">The least chance of landing in band with which a thickness may be fitted.</param>
    /// <param name="seating">How well a shim seats, standard deviation, mm. Common practice, no source.</param>
    public PlanRules(double keepFloor = 0.5, double fitFloor = 0.05, double seating = 0.004)
    {
        KeepFloor = Guard.Within(keepFloor, 0, 1);
        FitFloor = Guard.Within(fitFloor, 0, 1);
        Seating = Guard.Within(seating, LeastSeating, GreatestSeating);
    }

    /// <summary>The default rules.</summary>
    public static PlanRules Default { get; } = new();

    /// <summary>The least chance with which a valve may be left alone.</summary>
    public double KeepFloor { get; }

    /// <summary>The least chance with which a thickness may be fitted.</summary>
    public double FitFloor { get; }

    /// <summary>How well a shim seats, mm.</summary>
    public double Seating { get; }

    /// <summary>The standard deviation with which a change of thickness moves a clearance, mm.</summary>
    /// <param name="atTheGap">The uncertainty of the difference of thicknesses, at the gap, mm.</param>
    /// <returns>The two together; at least 0.0002, which is finer than any shim seats.</returns>
    public double ChangeUncertainty(double atTheGap) => Math.Max(LeastChangeUncertainty, Squares.CombinedStandardUncertainty(Seating, atTheGap));

    /// <summary>The standard deviation about its target of a gap that a screw sets, mm.</summary>
    public double ScrewUncertainty => Squares.CombinedStandardUncertainty(Seating, SettingFeel);
}
