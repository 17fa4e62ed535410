using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Results;

/// <summary>What was expected before the re-check was read, mm.</summary>
public sealed record PredictedRow(double Mean, double Sd)
{
    internal static PredictedRow Of(ClearanceDistribution predicted) => new(Rounding.Length(predicted.Mean), Rounding.Length(predicted.StandardDeviation));
}

/// <summary>One valve of a verdict.</summary>
public sealed record VerdictRow(string Valve, PredictedRow Predicted, EstimateRow Estimate, string Status, double? Surprise);

/// <summary>The answer of the command verdict.</summary>
public sealed record VerdictResult(string Format, bool Pass, IReadOnlyList<VerdictRow> Valves, IReadOnlyList<string> Cautions)
{
    /// <summary>Judges a job that was read for a verdict.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The answer.</returns>
    public static VerdictResult Of(Job job)
    {
        ArgumentNullException.ThrowIfNull(job);
        return Of(job, RecheckVerdict.On(job.ToRecheck()));
    }

    /// <summary>The answer for a verdict that is at hand.</summary>
    /// <param name="job">The job.</param>
    /// <param name="verdict">Its verdict.</param>
    /// <returns>The answer.</returns>
    public static VerdictResult Of(Job job, RecheckVerdict verdict)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(verdict);
        return new(
            "shimwright-verdict/1",
            verdict.Passes,
            [.. verdict.Valves.Select(v => new VerdictRow(
                v.Valve.Id,
                PredictedRow.Of(v.Predicted),
                EstimateRow.Of(v.Estimate),
                Words.Of(v.Estimate.Status),
                v.Surprise is { } surprise ? Rounding.Chance(surprise) : null))],
            Results.Cautions.OfRecheck(job, verdict, LengthWords.Millimetres));
    }
}
