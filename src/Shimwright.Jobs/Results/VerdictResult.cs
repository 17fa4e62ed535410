using System.Text.Json.Serialization;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Results;

/// <summary>What was expected before the re-check was read, mm.</summary>
/// <param name="Mean">Mean.</param>
/// <param name="Sd">Standard deviation.</param>
public sealed record PredictedRow(double Mean, [property: Bounds(0)] double Sd)
{
    internal static PredictedRow Of(ClearanceDistribution predicted) => new(Rounding.Length(predicted.Mean), Rounding.Length(predicted.StandardDeviation));
}

/// <summary>One valve of a verdict.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Predicted">What was expected.</param>
/// <param name="Estimate">What was felt and expected taken together.</param>
/// <param name="Status">in, out or unsettled.</param>
/// <param name="Surprise">How often a reading would be so far from what was expected; null where nothing was read.</param>
/// <param name="Passes">Whether it passes.</param>
/// <param name="Alone">The chance of being in band that its reading gives by itself; null where it was not read as it is now.</param>
public sealed record VerdictRow(
    string Valve, PredictedRow Predicted, EstimateRow Estimate, [property: Words(typeof(ClearanceStatus))] string Status, double? Surprise, bool Passes, double? Alone)
{
    /// <summary>Whether it passes, and if not, why.</summary>
    [JsonIgnore]
    public PassResult Result { get; init; }
}

/// <summary>The answer of the command verdict.</summary>
/// <param name="Format">shimwright-verdict/1.</param>
/// <param name="Pass">Whether every valve passes.</param>
/// <param name="ChanceAll">The chance that all are in band.</param>
/// <param name="Valves">The valves, in the engine's order.</param>
/// <param name="Cautions">What to bear in mind.</param>
public sealed record VerdictResult(
    [property: Words(VerdictResult.FormatName)] string Format, bool Pass, [property: Bounds(0, 1)] double ChanceAll, IReadOnlyList<VerdictRow> Valves, IReadOnlyList<string> Cautions)
{
    /// <summary>What its member format says.</summary>
    public const string FormatName = "shimwright-verdict/1";

    /// <summary>Judges a job that was read for a verdict.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> is null.</exception>
    public static VerdictResult Of(Job job)
    {
        ArgumentNullException.ThrowIfNull(job);
        return Of(job, RecheckVerdict.On(job.ToRecheck()));
    }

    /// <summary>The answer for a verdict that is at hand.</summary>
    /// <param name="job">The job.</param>
    /// <param name="verdict">Its verdict.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> or <paramref name="verdict"/> is null.</exception>
    public static VerdictResult Of(Job job, RecheckVerdict verdict)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(verdict);
        return new(
            FormatName,
            verdict.Passes,
            Rounding.Chance(verdict.ChanceAll),
            [.. verdict.Valves.Select(v => new VerdictRow(
                v.Valve.Id,
                PredictedRow.Of(v.Predicted),
                EstimateRow.Of(v.Estimate),
                Words.Of(v.Estimate.Status),
                Rounding.Chance(v.Surprise),
                v.Passes,
                Rounding.Chance(v.Alone)) { Result = v.Result })],
            Results.Cautions.OfRecheck(job, verdict, LengthWords.Millimetres));
    }
}
