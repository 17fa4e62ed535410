using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Marks;
using Shimwright.Jobs.Fitting;
using Shimwright.Storage.Database;
using Shimwright.Storage.Drawer;
using Shimwright.Storage.Jobs;

namespace Shimwright.Storage.Marks;

/// <summary>Marks against measured sizes, out of the jobs and the drawer's ledger.</summary>
internal sealed class MarkStore : IMarks
{
    private readonly Func<BenchContext> _open;
    private readonly JobStore _jobs;

    internal MarkStore(Func<BenchContext> open, JobStore jobs)
    {
        _open = open;
        _jobs = jobs;
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<JobMark>> ListAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        // A job that knows both has both words in its facts.
        List<JobRow> rows = await context.Jobs.AsNoTracking().Include(j => j.Engine)
            .Where(j => context.Facts.Any(f => f.JobId == j.Id && f.Fact.Contains("\"marked\"")) && context.Facts.Any(f => f.JobId == j.Id && f.Fact.Contains("\"micrometer\"")))
            .OrderByDescending(j => j.StartedAt).ThenBy(j => j.Id).Take(IMarks.MostJobs).ToListAsync(cancel);
        Guid[] ids = [.. rows.Select(r => r.Id)];
        ILookup<Guid, FactRow> facts = (await context.Facts.AsNoTracking().Where(f => ids.Contains(f.JobId))
            .OrderBy(f => f.JobId).ThenBy(f => f.Number).ToListAsync(cancel)).ToLookup(f => f.JobId);
        IEnumerable<JobMark> ofJobs = rows.SelectMany(r => MarkedShims.Of(_jobs.SheetOf(r, facts[r.Id].Where(f => f.Number <= r.Last)))
            .Select(m => new JobMark(r.Id, r.Engine.Name, r.StartedAt, m)));
        return [.. ofJobs.Concat(await InTheDrawerAsync(context, cancel)).OrderByDescending(m => m.At)];
    }

    private static async Task<IEnumerable<JobMark>> InTheDrawerAsync(BenchContext context, CancellationToken cancel)
    {
        List<ShimMoveRow> moves = await context.ShimMoves.AsNoTracking()
            .Where(m => m.Reason == (int)ShimReason.Measured && !context.ShimMoves.Any(u => u.Undoes == m.Number)).OrderBy(m => m.Number).ToListAsync(cancel);
        return moves.GroupBy(m => m.Action).Select(g => new JobMark(
            null, "", g.First().At, new("", g.Single(m => m.Change < 0).Thickness / 1000.0, g.Single(m => m.Change > 0).Thickness / 1000.0)));
    }
}
