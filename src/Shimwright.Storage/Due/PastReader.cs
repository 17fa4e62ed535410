using Microsoft.EntityFrameworkCore;
using Shimwright.Jobs.Due;
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
        List<PastJob> past = [];
        List<ClockSeen> seen = [];
        foreach (JobRow row in rows)
        {
            JobSheet sheet = await jobs.SheetOf(context, row, cancel);
            past.Add(new(row.Id, sheet, (PastOrigin)row.Past, row.FollowsId));
            seen.Add(new(sheet.Check.Clock, row.StartedAt));
            seen.Add(new(Math.Max(sheet.Check.Clock, sheet.Closing?.Clock ?? 0), row.ClosedAt!.Value));
        }

        return new(past, seen);
    }
}
