using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Planning;

/// <summary>What a plan may do, and how well a change can be carried out.</summary>
public sealed record PlanRules
{
    /// <summary>Makes the rules.</summary>
    /// <param name="keepFloor">The least chance of being in band with which a valve may be left alone.</param>
    /// <param name="fitFloor">The least chance of landing in band with which a thickness may be fitted.</param>
    /// <param name="seating">How well a change is carried out; what is usual where it is left out.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="keepFloor"/> or <paramref name="fitFloor"/> is outside its range.</exception>
    public PlanRules(double keepFloor = 0.5, double fitFloor = 0.05, Seating? seating = null)
    {
        KeepFloor = Guard.Within(keepFloor, 0, 1);
        FitFloor = Guard.Within(fitFloor, 0, 1);
        Seating = seating ?? Seating.Usual;
    }

    /// <summary>The chance of being in band from which on changing a valve disturbs a good one. Common practice, no source.</summary>
    public const double GoodFrom = 0.9;

    /// <summary>A change of thickness below this is none, mm: like for like. Common practice, no source.</summary>
    public const double LikeForLike = 0.008;

    /// <summary>The default rules.</summary>
    public static PlanRules Default { get; } = new();

    /// <summary>The least chance with which a valve may be left alone.</summary>
    public double KeepFloor { get; }

    /// <summary>The least chance with which a thickness may be fitted.</summary>
    public double FitFloor { get; }

    /// <summary>How well a change is carried out.</summary>
    public Seating Seating { get; }
}
