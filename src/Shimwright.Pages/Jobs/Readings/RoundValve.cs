using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;

namespace Shimwright.Pages.Jobs.Readings;

/// <summary>One valve in a round of reading.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Estimate">What is known of it; before any reading what is expected.</param>
/// <param name="Predicted">At a re-check, what was expected after the change; null for a valve left alone.</param>
/// <param name="Surprise">How unlikely the reading was under the prediction; null where there is none.</param>
/// <param name="Readings">What was read in this round, in order.</param>
/// <param name="IsNeeded">Whether the round waits for it.</param>
/// <param name="Blade">The blade that is suggested here, mm, or null.</param>
public sealed record RoundValve(
    Valve Valve, EstimateRow Estimate, PredictedRow? Predicted, double? Surprise, IReadOnlyList<JobEntry> Readings, bool IsNeeded, double? Blade)
{
    /// <summary>Whether the blade is suggested because trying it pays, or because it was asked for.</summary>
    public bool IsAdvised { get; init; }

    /// <summary>Whether the blade is suggested only because the readings so far give no more than one end of the gap.</summary>
    public bool IsFurther { get; init; }

    public bool IsRead => Readings.Count > 0;

    /// <summary>in, out or unsettled; none where the round waits for a reading.</summary>
    public string Status => IsRead || !IsNeeded ? Estimate.Status : "none";

    /// <summary>Whether another trial here would tell little.</summary>
    public bool IsSettled => IsRead && Estimate.Status != "unsettled";

    /// <summary>How many trials with readings on both sides say enough for a shim: what is left is the blades' own steps. Common practice, no source.</summary>
    private const int Enough = 3;

    /// <summary>Whether to go on to the next valve: nothing is suggested here any more, or the gap is between two blades and a further one would say little.</summary>
    public bool IsDone => IsRead && (Blade is null || (Readings.Count >= Enough && !IsOneSided));

    /// <summary>Whether every blade so far was loose, or none entered: then the readings give no more than one end.</summary>
    public bool IsOneSided => Readings.Count > 0 && (Readings.All(r => r.Fact is BladeTried { Feel: "loose" }) || IsBlind);

    /// <summary>Whether blades were tried and none entered, so that nothing is known but an upper end.</summary>
    public bool IsBlind => Readings.Any(r => r.Fact is BladeTried) && Readings.All(r => r.Fact is BladeTried { Feel: "no" } or BucketTurned);
}
