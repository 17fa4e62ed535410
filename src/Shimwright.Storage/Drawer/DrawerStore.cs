using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Jobs;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Drawer;

/// <summary>The shop's drawer of shims: a ledger of entries that only grows, and what open jobs have promised of it.</summary>
internal sealed class DrawerStore : IDrawer
{
    private readonly Func<BenchContext> _open;
    private readonly TimeProvider _time;

    internal DrawerStore(Func<BenchContext> open, TimeProvider time)
    {
        _open = open;
        _time = time;
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<ShimLot>> LotsAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        DrawerCounts counts = await DrawerLedger.CountsAsync(context, null, null, cancel);
        List<ShimMoveRow> said = await context.ShimMoves.AsNoTracking().Where(m => m.Place != null || m.Price != null).OrderBy(m => m.Number).ToListAsync(cancel);
        HashSet<int> undone = [.. await context.ShimMoves.Where(m => m.Undoes != null).Select(m => m.Undoes!.Value).ToListAsync(cancel)];
        var newest = await context.ShimMoves.GroupBy(m => new { m.Diameter, m.Thickness, m.By }).Select(g => new { g.Key, Number = g.Max(m => m.Number) }).ToListAsync(cancel);
        return counts.Lots(
            said.Where(m => !undone.Contains(m.Number)).Select(DrawerLedger.EntryOf),
            newest.ToDictionary(n => new ShimSize(n.Key.Diameter, n.Key.Thickness, n.Key.By), n => n.Number));
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<DrawerMove>> HistoryAsync(ShimSize size, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        List<ShimMoveRow> rows = await context.ShimMoves.AsNoTracking()
            .Where(m => m.Diameter == size.Diameter && m.Thickness == size.Thickness && m.By == size.By).OrderBy(m => m.Number).ToListAsync(cancel);
        Guid?[] jobs = [.. rows.Select(r => r.JobId).Where(j => j is not null).Distinct()];
        Dictionary<Guid, string> engines = await context.Jobs.Where(j => jobs.Contains(j.Id)).Select(j => new { j.Id, j.Engine.Name }).ToDictionaryAsync(j => j.Id, j => j.Name, cancel);
        return DrawerMove.HistoryOf([.. rows.Select(DrawerLedger.EntryOf)], engines);
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<LedgerEntry>> EntriesAsync(int after, Guid? action, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return [.. (await context.ShimMoves.AsNoTracking().Where(m => m.Number > after && (action == null || m.Action == action)).OrderBy(m => m.Number).ToListAsync(cancel)).Select(DrawerLedger.EntryOf)];
    }

    /// <inheritdoc/>
    public Task<DrawerResult> AddAsync(ShimCount shims, DrawerStamp stamp, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(shims);
        return WriteAsync([shims], stamp, (_, drawer) => Task.FromResult(DrawerWork.Add(shims, drawer)), cancel);
    }

    /// <inheritdoc/>
    public Task<DrawerResult> CountAsync(IReadOnlyList<ShimCount> counted, DrawerStamp stamp, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(counted);
        return WriteAsync(counted, stamp, (_, drawer) => Task.FromResult(DrawerWork.Count(counted, drawer)), cancel);
    }

    /// <inheritdoc/>
    public Task<DrawerResult> MeasureAsync(ShimSize marked, double thickness, string? place, DrawerStamp stamp, CancellationToken cancel = default)
    {
        ShimCount measured = DrawerWork.Measured(marked, thickness, place);
        return WriteAsync([measured], stamp, (_, drawer) => Task.FromResult(DrawerWork.Measure(marked, measured, drawer)), cancel);
    }

    /// <inheritdoc/>
    public async Task<DrawerResult> UndoAsync(int number, DrawerStamp stamp, CancellationToken cancel = default)
    {
        await using BenchContext look = _open();
        ShimMoveRow? row = await look.ShimMoves.AsNoTracking().FirstOrDefaultAsync(m => m.Number == number, cancel);
        LedgerEntry? entry = row is null ? null : DrawerLedger.EntryOf(row);
        if (entry is null || DrawerUndo.Bars(number, entry) is not null)
        {
            return new(AddOutcome.Refused, [DrawerUndo.Bars(number, entry)!]);
        }

        // Entries never change: those of its action can be looked at before the drawer is held.
        List<ShimMoveRow> all = await look.ShimMoves.AsNoTracking().Where(m => m.Action == entry.Action).OrderBy(m => m.Number).ToListAsync(cancel);
        return await WriteAsync([], stamp, async (context, drawer) => DrawerUndo.Of(
            entry, [.. all.Select(DrawerLedger.EntryOf)], await context.ShimMoves.AnyAsync(m => m.Undoes == number, cancel), drawer), cancel);
    }

    private async Task<DrawerResult> WriteAsync(
        IReadOnlyList<ShimCount> shims, DrawerStamp stamp, Func<BenchContext, DrawerCounts, Task<DrawerChange>> work, CancellationToken cancel)
    {
        DrawerWork.Check(stamp);
        if (DrawerWork.ProblemsOf(shims) is { Count: > 0 } wrong)
        {
            return new(AddOutcome.Refused, wrong);
        }

        await using BenchContext context = _open();
        return await context.InTransactionAsync(
            async transaction =>
            {
                DrawerLedger ledger = await DrawerLedger.HoldAsync(context, cancel);
                DrawerCounts drawer = await DrawerLedger.CountsAsync(context, null, null, cancel);
                DrawerChange change = await work(context, drawer);
                if (await DrawerLedger.OfActionAsync(context, stamp.Action, cancel) is { Count: > 0 } before)
                {
                    return DrawerWork.Again(before, change, drawer);
                }

                if (stamp.Seen is { } seen
                    && DrawerWork.Meanwhile(shims, stamp.Unseen(await DrawerLedger.SinceAsync(context, seen, cancel)), drawer) is { Count: > 0 } meanwhile)
                {
                    return new(AddOutcome.Conflict, meanwhile);
                }

                if (change.Problems.Count > 0)
                {
                    return new(AddOutcome.Refused, change.Problems);
                }

                ledger.Write(change.Entries, null, stamp, _time.GetUtcNow().UtcDateTime);
                await context.SaveChangesAsync(cancel);
                await transaction.CommitAsync(cancel);
                return new(AddOutcome.Saved, []);
            },
            cancel);
    }
}
