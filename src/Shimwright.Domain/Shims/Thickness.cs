using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Shims;

/// <summary>The thickness of a shim, or of the crown of a graded bucket, and how it was found.</summary>
public sealed record Thickness
{
    /// <summary>The thinnest and thickest that is taken, mm: from a thin shim to a thick lash cap.</summary>
    public const double Thinnest = 0.3, Thickest = 12;

    /// <summary>Makes a thickness.</summary>
    /// <param name="millimetres">The thickness, mm, 0.3 to 12.</param>
    /// <param name="by">How it was found.</param>
    /// <param name="marked">What is marked on a shim that was measured, mm, by which it is found among others; null where that is not known.</param>
    /// <exception cref="ArgumentNullException"><paramref name="by"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="millimetres"/> or <paramref name="marked"/> is outside its range.</exception>
    public Thickness(double millimetres, Instrument by, double? marked = null)
    {
        ArgumentNullException.ThrowIfNull(by);
        Millimetres = Guard.Within(millimetres, Thinnest, Thickest);
        By = by;
        Marked = marked is { } mark ? Guard.Within(mark, Thinnest, Thickest, nameof(marked)) : null;
    }

    /// <summary>The thickness, mm.</summary>
    public double Millimetres { get; }

    /// <summary>How it was found.</summary>
    public Instrument By { get; }

    /// <summary>What is marked on it, mm, where it was measured; null where that is not known.</summary>
    public double? Marked { get; }

    /// <summary>What is gained where this one is taken out and another is put in.</summary>
    /// <param name="replacement">The one that is put in.</param>
    /// <returns>This thickness minus the replacement's, with its uncertainty.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="replacement"/> is null.</exception>
    public ThicknessDifference Minus(Thickness replacement)
    {
        ArgumentNullException.ThrowIfNull(replacement);
        double uncertainty = string.Equals(By.Name, replacement.By.Name, StringComparison.Ordinal)
            ? Squares.CombinedStandardUncertainty(By.Random, replacement.By.Random)
            : Squares.CombinedStandardUncertainty(By.Random, replacement.By.Random, By.Systematic, replacement.By.Systematic);
        return new(Millimetres - replacement.Millimetres, uncertainty);
    }
}
