using Shimwright.Domain.Planning;
using Shimwright.Domain.Rechecking;

namespace Shimwright.Jobs.Results;

/// <summary>What was expected before the re-check was read, mm.</summary>
public sealed record PredictedRow(double Mean, double Sd);

/// <summary>One valve of a verdict.</summary>
public sealed record VerdictRow(string Valve, PredictedRow Predicted, EstimateRow Estimate, string Status, double? Surprise);

/// <summary>The answer of the command verdict.</summary>
public sealed record VerdictResult(string Format, bool Pass, IReadOnlyList<VerdictRow> Valves, IReadOnlyList<string> Cautions)
{
    /// <summary>Judges a job that was read for a verdict.</summary>
    /// <param name="job">The job.</param>
    /// <param name="words">How cautions write lengths; millimetres where left out.</param>
    /// <returns>The answer.</returns>
    public static VerdictResult Of(Job job, LengthWords? words = null)
    {
        ArgumentNullException.ThrowIfNull(job);
        RecheckVerdict verdict = RecheckVerdict.On(job.ToRecheck());
        return new(
            "shimwright-verdict/1",
            verdict.Passes,
            [.. verdict.Valves.Select(v => new VerdictRow(
                v.Valve.Id,
                new PredictedRow(Round.Length(v.Predicted.Mean), Round.Length(v.Predicted.StandardDeviation)),
                EstimateRow.Of(v.Estimate),
                Words.Of(v.Estimate.Status),
                v.Surprise is { } surprise ? Round.Chance(surprise) : null))],
            Results.Cautions.OfRecheck(job, verdict, words ?? LengthWords.Millimetres));
    }
}
