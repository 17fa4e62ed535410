using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Engines;

/// <summary>How the clearance of an engine is adjusted.</summary>
public enum Adjuster
{
    /// <summary>A shim between the bucket and the valve stem; the camshaft has to come out.</summary>
    ShimUnderBucket,

    /// <summary>A shim on top of the bucket, under the cam.</summary>
    ShimOverBucket,

    /// <summary>Buckets made in graded crown thicknesses; the bucket itself is changed.</summary>
    GradedBucket,

    /// <summary>A shim at the valve under a finger between cam and valve.</summary>
    FingerFollower,

    /// <summary>A screw and lock nut at a rocker.</summary>
    Screw,
}

/// <summary>The adjuster with the two numbers that turn its setting into clearance at the gap.</summary>
public sealed record Valvetrain
{
    /// <summary>The least and greatest ratio that is taken.</summary>
    public const double LeastRatio = 0.1, GreatestRatio = 5;

    /// <summary>The least and greatest screw pitch that is taken, mm a turn.</summary>
    public const double LeastPitch = 0.1, GreatestPitch = 3;

    /// <summary>Makes a valve train.</summary>
    /// <param name="adjuster">How the clearance is adjusted.</param>
    /// <param name="ratio">Clearance change at the gap per unit of shim or screw travel, 0.1 to 5; 1 under a direct-acting cam.</param>
    /// <param name="pitch">Thread pitch in mm a turn, 0.1 to 3; a screw has one, nothing else does.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="adjuster"/>, <paramref name="ratio"/> or <paramref name="pitch"/> is outside its range.</exception>
    /// <exception cref="ArgumentException">A screw without a <paramref name="pitch"/>, or a shim with one.</exception>
    public Valvetrain(Adjuster adjuster, double ratio = 1, double? pitch = null)
    {
        Adjuster = Enum.IsDefined(adjuster) ? adjuster : throw new ArgumentOutOfRangeException(nameof(adjuster));
        Ratio = Guard.Within(ratio, LeastRatio, GreatestRatio);
        if (adjuster == Adjuster.Screw != pitch.HasValue)
        {
            throw new ArgumentException("A screw needs a pitch; no other adjuster has one.", nameof(pitch));
        }

        Pitch = pitch is { } p ? Guard.Within(p, LeastPitch, GreatestPitch, nameof(pitch)) : null;
    }

    /// <summary>Makes a valve train with a finger or rocker whose ends are known.</summary>
    /// <param name="adjuster">How the clearance is adjusted: a shim under a finger, or a screw.</param>
    /// <param name="lever">The finger or rocker.</param>
    /// <param name="pitch">Thread pitch in mm a turn, 0.1 to 3; a screw has one, nothing else does.</param>
    /// <exception cref="ArgumentNullException"><paramref name="lever"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="adjuster"/> or <paramref name="pitch"/> is outside its range.</exception>
    /// <exception cref="ArgumentException">A screw without a <paramref name="pitch"/>, a shim with one, or a bucket with a <paramref name="lever"/>.</exception>
    public Valvetrain(Adjuster adjuster, Lever lever, double? pitch = null)
        : this(adjuster, RatioOf(lever), pitch)
    {
        if (!HasLever(adjuster))
        {
            throw new ArgumentException("A bucket has no lever.", nameof(lever));
        }

        Lever = lever;
    }

    /// <summary>How the clearance is adjusted.</summary>
    public Adjuster Adjuster { get; }

    /// <summary>The finger or rocker where its ends are known; null where only the ratio is.</summary>
    public Lever? Lever { get; }

    /// <summary>Clearance change at the gap per unit of shim or screw travel.</summary>
    public double Ratio { get; }

    /// <summary>Thread pitch, mm a turn; null unless the adjuster is a screw.</summary>
    public double? Pitch { get; }

    /// <summary>Whether shims (or graded buckets) have thicknesses here.</summary>
    public bool HasShims => Adjuster != Adjuster.Screw;

    /// <summary>Whether a finger or rocker stands between cam and valve.</summary>
    /// <param name="adjuster">How the clearance is adjusted.</param>
    /// <returns>Whether there is one.</returns>
    public static bool HasLever(Adjuster adjuster) => adjuster is Adjuster.FingerFollower or Adjuster.Screw;

    private static double RatioOf(Lever lever)
    {
        ArgumentNullException.ThrowIfNull(lever);
        return lever.Ratio;
    }
}
