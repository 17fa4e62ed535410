using Microsoft.EntityFrameworkCore;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Database;
using Shimwright.Storage.Jobs;

namespace Shimwright.Storage.Due;

/// <summary>An engine's closed jobs, and what its clock showed when.</summary>
internal sealed record EnginePast(IReadOnlyList<PastJob> Jobs, IReadOnlyList<ClockSeen> Seen);

/// <summary>Reads the past of engines.</summary>
internal sealed class PastReader(JobStore jobs)
{
    public async Task<EnginePast> OfAsync(BenchContext context, Guid engineId, CancellationToken cancel)
    {
        List<JobRow> rows = await context.Jobs.AsNoTracking().Where(j => j.EngineId == engineId && j.ClosedAt != null)
            .OrderBy(j => j.Clock).ThenBy(j => j.StartedAt).ThenBy(j => j.Id).ToListAsync(cancel);
        // All facts in one question: an engine of many years has many jobs.
        Guid[] ids = [.. rows.Select(r => r.Id)];
        ILookup<Guid, FactRow> facts = (await context.Facts.AsNoTracking().Where(f => ids.Contains(f.JobId))
            .OrderBy(f => f.JobId).ThenBy(f => f.Number).ToListAsync(cancel)).ToLookup(f => f.JobId);
        List<PastJob> past = [];
        List<ClockSeen> seen = [];
        foreach (JobRow row in rows)
        {
            JobSheet sheet = jobs.SheetOf(row, facts[row.Id].Where(f => f.Number <= row.Last));
            past.Add(new(row.Id, sheet, (PastOrigin)row.Past, row.FollowsId));
            seen.Add(new(sheet.Check.Clock, row.StartedAt));
            seen.Add(new(Math.Max(sheet.Check.Clock, sheet.Closing?.Clock ?? 0), row.ClosedAt!.Value));
        }

        return new(past, seen);
    }
}
