using Microsoft.EntityFrameworkCore;
using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Database;
using Shimwright.Storage.Jobs;

namespace Shimwright.Storage.Drawer;

/// <summary>A shim of which mark and size are both known, and the job that knows them.</summary>
/// <param name="Job">The job.</param>
/// <param name="Engine">Its engine's name.</param>
/// <param name="At">When the job was begun, UTC.</param>
/// <param name="Shim">The shim.</param>
public sealed record JobMark(Guid Job, string Engine, DateTime At, MarkedShim Shim);

/// <summary>Marks against measured sizes, out of the jobs.</summary>
public sealed class MarkStore
{
    /// <summary>How many jobs are looked through, the newest first.</summary>
    public const int MostJobs = 500;

    private readonly Func<BenchContext> _open;
    private readonly JobStore _jobs;

    internal MarkStore(Func<BenchContext> open, JobStore jobs)
    {
        _open = open;
        _jobs = jobs;
    }

    /// <summary>The shims of the newest jobs that know any, the newest first.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The shims.</returns>
    public async Task<IReadOnlyList<JobMark>> ListAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        // A job that knows both has both words in its facts.
        List<JobRow> rows = await context.Jobs.AsNoTracking().Include(j => j.Engine)
            .Where(j => context.Facts.Any(f => f.JobId == j.Id && f.Fact.Contains("\"marked\"")) && context.Facts.Any(f => f.JobId == j.Id && f.Fact.Contains("\"micrometer\"")))
            .OrderByDescending(j => j.StartedAt).ThenBy(j => j.Id).Take(MostJobs).ToListAsync(cancel);
        Guid[] ids = [.. rows.Select(r => r.Id)];
        ILookup<Guid, FactRow> facts = (await context.Facts.AsNoTracking().Where(f => ids.Contains(f.JobId))
            .OrderBy(f => f.JobId).ThenBy(f => f.Number).ToListAsync(cancel)).ToLookup(f => f.JobId);
        return
        [
            .. rows.SelectMany(r => MarkedShims.Of(_jobs.SheetOf(r, facts[r.Id].Where(f => f.Number <= r.Last)))
                .Select(m => new JobMark(r.Id, r.Engine.Name, r.StartedAt, m))),
        ];
    }
}
