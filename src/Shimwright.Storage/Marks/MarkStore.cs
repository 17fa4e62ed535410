using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Marks;
using Shimwright.Storage.Database;
using Shimwright.Storage.Drawer;
using Shimwright.Storage.Jobs;

namespace Shimwright.Storage.Marks;

/// <summary>Marks against measured sizes, out of the jobs and the drawer's ledger.</summary>
internal sealed class MarkStore : IMarks
{
    private readonly Func<BenchContext> _open;
    private readonly SheetReader _sheets;

    internal MarkStore(Func<BenchContext> open, SheetReader sheets)
    {
        _open = open;
        _sheets = sheets;
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<JobMark>> ListAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        // A job that knows both has both words in its facts.
        List<JobRow> rows = await context.Jobs.AsNoTracking().Include(j => j.Engine)
            .Where(j => j.DiscardedAt == null && context.Facts.Any(f => f.JobId == j.Id && f.Fact.Contains(MarkRules.Marked)) && context.Facts.Any(f => f.JobId == j.Id && f.Fact.Contains(MarkRules.Measured)))
            .OrderByDescending(j => j.StartedAt).ThenBy(j => j.Id).Take(IMarks.MostJobs).ToListAsync(cancel);
        IEnumerable<JobMark> ofJobs = (await _sheets.OfAllAsync(context, rows, cancel)).SelectMany(j => MarkRules.OfJob(j.Row.Id, j.Row.Engine.Name, j.Row.StartedAt, j.Sheet));
        return [.. ofJobs.Concat(await InTheDrawerAsync(context, cancel)).OrderByDescending(m => m.At)];
    }

    private static async Task<IEnumerable<JobMark>> InTheDrawerAsync(BenchContext context, CancellationToken cancel)
    {
        List<ShimMoveRow> moves = await context.ShimMoves.AsNoTracking()
            .Where(m => m.Reason == (int)ShimReason.Measured && !context.ShimMoves.Any(u => u.Undoes == m.Number)).OrderBy(m => m.Number).ToListAsync(cancel);
        return MarkRules.InDrawer(moves.Select(DrawerLedger.EntryOf));
    }
}
