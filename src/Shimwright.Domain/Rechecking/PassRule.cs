using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Rechecking;

/// <summary>Whether a valve passes its re-check, and if not, why.</summary>
public enum PassResult
{
    /// <summary>It passes.</summary>
    Passes,

    /// <summary>The chance of being in band is below the floor.</summary>
    TooDoubtful,

    /// <summary>The chance is there, but what was felt says too little of it by itself.</summary>
    FeltTooLittle,

    /// <summary>It was changed and not felt since.</summary>
    NotFelt,
}

/// <summary>
/// When a valve passes: its chance of being in band reaches the floor, and where it was changed, no blade entered or the reading is far from
/// what was expected, what was felt says so by itself too. What was only predicted is no pass.
/// </summary>
public sealed record PassRule
{
    /// <summary>The usual floor. Common practice, no source.</summary>
    public const double UsualFloor = 0.8;

    /// <summary>The chance that the reading alone has to give where it is asked. Common practice, no source.</summary>
    public const double AloneFloor = 0.5;

    /// <summary>Makes a rule.</summary>
    /// <param name="floor">The least chance of being in band with which a valve passes, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="floor"/> is outside its range.</exception>
    public PassRule(double floor = UsualFloor) => Floor = Guard.Within(floor, 0, 1);

    /// <summary>The usual rule.</summary>
    public static PassRule Usual { get; } = new();

    /// <summary>The least chance of being in band with which a valve passes.</summary>
    public double Floor { get; }

    /// <summary>Judges a valve.</summary>
    /// <param name="inBand">Its chance of being in band.</param>
    /// <param name="alone">The chance that its reading alone gives; null where it was not read as it is now.</param>
    /// <param name="wasChanged">Whether it was changed.</param>
    /// <param name="bladeEntered">Whether a blade entered, or the clearance was measured.</param>
    /// <param name="isSurprising">Whether the reading is far from what was expected: what was expected is then no reason to pass, changed or not.</param>
    /// <returns>Whether it passes, and if not, why.</returns>
    public PassResult Judge(double inBand, double? alone, bool wasChanged, bool bladeEntered, bool isSurprising = false) =>
        wasChanged && alone is null ? PassResult.NotFelt
        : inBand < Floor ? PassResult.TooDoubtful
        : (wasChanged || !bladeEntered || isSurprising) && !(alone >= AloneFloor) ? PassResult.FeltTooLittle
        : PassResult.Passes;
}
