using Shimwright.Domain.Readings;
using Shimwright.Jobs.Guidance;

namespace Shimwright.Jobs.Results;

/// <summary>Tight readings, and what lifts valves while they are read.</summary>
internal static class TightValves
{
    /// <summary>Whether no blade entered at a valve, and nothing else gave a number.</summary>
    public static bool IsBlind(ValveReadings readings) =>
        readings.Trials.Count > 0 && readings.Values.Count == 0 && readings.Trials.All(t => t.Feel == Feel.No);

    /// <summary>The caution that names the decompressor, or null: for valves of its own that read tight.</summary>
    /// <param name="job">The job.</param>
    /// <param name="readings">The readings of each valve, in the engine's order.</param>
    /// <param name="estimates">What is known of each, in the same order; null where it is not at hand.</param>
    public static string? Decompressed(Job job, IReadOnlyList<ValveReadings> readings, IReadOnlyList<ClearanceEstimate>? estimates)
    {
        if (job.Decompressor is not { } decompressor)
        {
            return null;
        }

        string[] tight =
        [
            .. job.Engine.Valves.Index()
                .Where(v => decompressor.WorksOn(v.Item.Id) && (IsBlind(readings[v.Index]) || (!readings[v.Index].IsEmpty && IsOutBelow(v.Index))))
                .Select(v => v.Item.Id),
        ];
        return tight.Length == 0 ? null : DecompressorWords.Tight(tight, decompressor.Lifts);

        bool IsOutBelow(int v) =>
            estimates is not null && estimates[v].Status == ClearanceStatus.Out && estimates[v].Mean < job.Engine.Valves[v].Band.Low;
    }
}
