using Shimwright.Bench.Drawer;
using Shimwright.Bench.Jobs;

namespace Shimwright.Bench.InMemory;

/// <summary>The drawer of a bench in memory.</summary>
internal sealed class MemoryDrawer(MemoryState state) : IDrawer
{
    private MemoryLedger Ledger => state.Ledger;

    /// <inheritdoc/>
    public Task<IReadOnlyList<ShimLot>> LotsAsync(CancellationToken cancel = default) => state.DoAsync(Lots, cancel);

    /// <summary>Every size that was ever in the drawer, nobody writing.</summary>
    public IReadOnlyList<ShimLot> Lots() =>
        Ledger.Counts().Lots(Ledger.Entries.Where(e => (e.Place is not null || e.Price is not null) && !Ledger.IsUndone(e.Number)),
        Ledger.Entries.GroupBy(e => e.Size).ToDictionary(g => g.Key, g => g.Max(e => e.Number)));

    /// <inheritdoc/>
    public Task<IReadOnlyList<DrawerMove>> HistoryAsync(ShimSize size, CancellationToken cancel = default) => state.DoAsync(
        () =>
        {
            LedgerEntry[] entries = [.. Ledger.Entries.Where(e => e.Size == size)];
            return DrawerMove.HistoryOf(entries, entries.Select(e => e.Job).OfType<Guid>().Distinct().ToDictionary(j => j, j => state.Engines[state.Jobs[j].Row.EngineId].Row.Name));
        },
        cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<LedgerEntry>> EntriesAsync(int after, Guid? action, CancellationToken cancel = default) => state.DoAsync(
        IReadOnlyList<LedgerEntry> () => [.. Ledger.Entries.Skip(after).Where(e => action is null || e.Action == action)], cancel);

    /// <inheritdoc/>
    public Task<DrawerResult> AddAsync(ShimCount shims, DrawerStamp stamp, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(shims);
        return WriteAsync([shims], stamp, drawer => DrawerWork.Add(shims, drawer), cancel);
    }

    /// <inheritdoc/>
    public Task<DrawerResult> CountAsync(IReadOnlyList<ShimCount> counted, DrawerStamp stamp, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(counted);
        return WriteAsync(counted, stamp, drawer => DrawerWork.Count(counted, drawer), cancel);
    }

    /// <inheritdoc/>
    public Task<DrawerResult> MeasureAsync(ShimSize marked, double thickness, string? place, DrawerStamp stamp, CancellationToken cancel = default)
    {
        ShimCount measured = DrawerWork.Measured(marked, thickness, place);
        return WriteAsync([measured], stamp, drawer => DrawerWork.Measure(marked, measured, drawer), cancel);
    }

    /// <inheritdoc/>
    public Task<DrawerResult> UndoAsync(int number, DrawerStamp stamp, CancellationToken cancel = default) => state.DoAsync(
        () => Ledger.Find(number) is not { } entry || DrawerUndo.Bars(number, entry) is not null
            ? new(AddOutcome.Refused, [DrawerUndo.Bars(number, Ledger.Find(number))!])
            : Write([], stamp, drawer => DrawerUndo.Of(entry, [.. Ledger.Entries.Where(e => e.Action == entry.Action)], Ledger.IsUndone(number), drawer)),
        cancel);

    private Task<DrawerResult> WriteAsync(IReadOnlyList<ShimCount> shims, DrawerStamp stamp, Func<DrawerCounts, DrawerChange> work, CancellationToken cancel) =>
        state.DoAsync(() => Write(shims, stamp, work), cancel);

    private int After(LedgerEntry entry) => Ledger.Entries.Take(entry.Number).Where(e => e.Size == entry.Size).Sum(e => e.Change);

    private DrawerResult Write(IReadOnlyList<ShimCount> shims, DrawerStamp stamp, Func<DrawerCounts, DrawerChange> work)
    {
        DrawerWork.Check(stamp);
        if (DrawerWork.ProblemsOf(shims) is { Count: > 0 } wrong)
        {
            return new(AddOutcome.Refused, wrong);
        }

        DrawerCounts drawer = Ledger.Counts();
        DrawerChange change = work(drawer);
        if (Ledger.Knows(stamp.Action))
        {
            return DrawerWork.Again([.. Ledger.Entries.Where(e => e.Action == stamp.Action).Select(e => (e, After(e)))], change, drawer);
        }

        if (stamp.Seen is { } seen && DrawerWork.Meanwhile(shims, stamp.Unseen(Ledger.Entries.Where(e => e.Number > seen)), drawer) is { Count: > 0 } meanwhile)
        {
            return new(AddOutcome.Conflict, meanwhile);
        }

        if (change.Problems.Count > 0)
        {
            return new(AddOutcome.Refused, change.Problems);
        }

        state.Change(new() { Ledger = [.. change.Entries.Select((e, i) => e.Numbered(Ledger.Last + 1 + i, null, stamp, state.Now))] });
        return new(AddOutcome.Saved, []);
    }
}
