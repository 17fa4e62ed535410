using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.FeelCalibration;

/// <summary>A blade tried in a gap whose size is known.</summary>
public sealed record FeelTrial
{
    /// <summary>The widest gap that is taken, mm (the least is above 0).</summary>
    public const double Widest = 3;

    /// <summary>How far gap and blade may lie apart, mm; further off a feel says nothing about the fingers.</summary>
    public const double MostPlay = 0.5;

    /// <summary>Makes a trial.</summary>
    /// <param name="gap">The gap: a stack of gauge blocks, or a micrometer set to a size, mm, above 0 up to 3.</param>
    /// <param name="trial">The blade and what it felt like; within 0.5 mm of the gap.</param>
    /// <exception cref="ArgumentNullException"><paramref name="trial"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="gap"/> is outside its range, or too far from the blade.</exception>
    public FeelTrial(double gap, BladeTrial trial)
    {
        ArgumentNullException.ThrowIfNull(trial);
        Gap = Guard.Within(gap, double.Epsilon, Widest);
        Guard.Within(gap - trial.Blade, -MostPlay, MostPlay, "gap - blade");
        Trial = trial;
    }

    /// <summary>The gap, mm.</summary>
    public double Gap { get; }

    /// <summary>The blade and what it felt like.</summary>
    public BladeTrial Trial { get; }

    /// <summary>Gap minus blade, mm.</summary>
    public double Play => Gap - Trial.Blade;
}
