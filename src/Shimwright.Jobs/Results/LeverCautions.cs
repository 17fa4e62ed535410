using Shimwright.Domain.Engines;
using static System.FormattableString;

namespace Shimwright.Jobs.Results;

/// <summary>What does not look right about a card's lever.</summary>
internal static class LeverCautions
{
    /// <summary>The caution of a valve train, or null.</summary>
    public static string? Of(Valvetrain train) => train switch
    {
        { Lever: not null } => null,
        { Adjuster: Adjuster.FingerFollower, Ratio: 1 } =>
            "The card does not give the finger's lever ratio. A shim is taken to move the gap by its full thickness, which is right only for a gap felt at the valve. Enter leverRatio and where the gap is felt.",
        { Adjuster: Adjuster.FingerFollower, Ratio: > 1 } => Invariant(
            $"The card gives a ratio of {train.Ratio:0.###} for a finger follower. A shim at the valve moves a gap at the cam by less than its own thickness: check whether this is the lever ratio, and enter it as leverRatio."),
        { Ratio: not 1, Adjuster: Adjuster.ShimUnderBucket or Adjuster.ShimOverBucket or Adjuster.GradedBucket } => Invariant(
            $"The card gives a ratio of {train.Ratio:0.###} for a direct-acting valve train, where it is normally 1: check the card."),
        _ => null,
    };
}
