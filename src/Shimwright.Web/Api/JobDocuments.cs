using System.Text.Json;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;

namespace Shimwright.Web.Api;

/// <summary>A job in a list. Stage is the first thing that is still to be done.</summary>
internal sealed record JobRow(Guid Id, Guid EngineId, string Engine, string Stage, double Clock, DateTime StartedAt, DateTime ChangedAt, DateTime? ClosedAt, DateTime? DiscardedAt)
{
    public static JobRow Of(JobSummary job) =>
        new(job.Id, job.EngineId, job.Engine, job.Stage.ToString().ToLowerInvariant(), job.Clock, job.StartedAt, job.ChangedAt, job.ClosedAt, job.DiscardedAt);
}

/// <summary>A part of the list of jobs.</summary>
internal sealed record JobPageDocument(int Page, IReadOnlyList<JobRow> Jobs);

/// <summary>An entry of a job's sheet. One that is not in force was taken back.</summary>
internal sealed record EntryRow(int Number, Guid Action, string Device, DateTime At, bool InForce, JsonElement Fact)
{
    public static EntryRow Of(JobEntry entry, bool inForce) =>
        new(entry.Number, entry.Action, entry.Device, entry.At, inForce, JsonElement.Parse(FactJson.Write(entry.Fact)));
}

/// <summary>A job with its sheet. Last is the number of the last entry: what a device has seen when it has seen all.</summary>
internal sealed record JobDocument(JobRow Job, int Last, IReadOnlyList<EntryRow> Entries)
{
    public static JobDocument Of(StoredJob job)
    {
        HashSet<int> inForce = [.. job.Sheet.InForce.Select(e => e.Number)];
        return new(JobRow.Of(job.Summary), job.Sheet.Last, [.. job.Sheet.Entries.Select(e => EntryRow.Of(e, inForce.Contains(e.Number)))]);
    }
}

/// <summary>What became of facts that were sent. Before says that the same action had been saved already.</summary>
internal sealed record FactsSaved(bool Before, int Last, string Stage);
