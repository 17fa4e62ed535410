using Microsoft.EntityFrameworkCore;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Jobs;

/// <summary>Lays the facts of jobs over what these started from.</summary>
internal sealed class SheetReader
{
    private readonly SetupCache _setups = new();

    /// <summary>The sheet of a job. The row says which fact is the last, and facts up to there never change.</summary>
    public async Task<JobSheet> OfAsync(BenchContext context, JobRow row, CancellationToken cancel)
    {
        List<FactRow> facts = await context.Facts.AsNoTracking()
            .Where(f => f.JobId == row.Id && f.Number <= row.Last).OrderBy(f => f.Number).ToListAsync(cancel);
        return Of(row, facts);
    }

    /// <summary>The sheets of jobs, in the same order. All facts in one question: an engine of many years has many jobs.</summary>
    public async Task<IReadOnlyList<(JobRow Row, JobSheet Sheet)>> OfAllAsync(BenchContext context, IReadOnlyList<JobRow> rows, CancellationToken cancel)
    {
        Guid[] ids = [.. rows.Select(r => r.Id)];
        ILookup<Guid, FactRow> facts = (await context.Facts.AsNoTracking().Where(f => ids.Contains(f.JobId))
            .OrderBy(f => f.JobId).ThenBy(f => f.Number).ToListAsync(cancel)).ToLookup(f => f.JobId);
        return [.. rows.Select(r => (r, Of(r, facts[r.Id].Where(f => f.Number <= r.Last))))];
    }

    private JobSheet Of(JobRow row, IEnumerable<FactRow> facts) => JobSheet.Of(
        _setups.Get(row.Id, row.Setup),
        [.. facts.Select(f => new JobEntry(f.Number, f.Action, f.Device, f.At, FactJson.Read(f.Fact)))]);
}
