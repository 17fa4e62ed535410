using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Drawer;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Drawer;

/// <summary>The ledger inside one transaction: held, summed, and written to.</summary>
internal sealed class DrawerLedger
{
    private readonly BenchContext _context;
    private readonly DrawerRow _row;

    private DrawerLedger(BenchContext context, DrawerRow row)
    {
        _context = context;
        _row = row;
    }

    /// <summary>Holds the drawer until the transaction ends: others wait here, and then see what was written before them.</summary>
    public static async Task<DrawerLedger> HoldAsync(BenchContext context, CancellationToken cancel)
    {
        await context.Set<DrawerRow>().Where(d => d.Id == DrawerModel.Only).ExecuteUpdateAsync(s => s.SetProperty(d => d.Last, d => d.Last), cancel);
        return new(context, await context.Set<DrawerRow>().SingleAsync(d => d.Id == DrawerModel.Only, cancel));
    }

    /// <summary>Adds entries; they are written when the context is saved.</summary>
    public void Write(IReadOnlyList<NewEntry> entries, Guid? job, DrawerStamp stamp, DateTime now)
    {
        foreach (NewEntry entry in entries)
        {
            _context.ShimMoves.Add(RowOf(entry.Numbered(++_row.Last, job, stamp, now)));
        }
    }

    /// <summary>Says that the last entry has this number: the ledger was filled from a copy.</summary>
    public void StandAt(int last) => _row.Last = last;

    /// <summary>What the ledger adds up to.</summary>
    /// <param name="context">The context.</param>
    /// <param name="diameter">The one diameter that is counted, or null for all.</param>
    /// <param name="except">A job whose own promises do not count, or null.</param>
    /// <param name="cancel">Stops it.</param>
    public static async Task<DrawerCounts> CountsAsync(BenchContext context, int? diameter, Guid? except, CancellationToken cancel)
    {
        var sums = await context.ShimMoves.AsNoTracking().Where(m => diameter == null || m.Diameter == diameter)
            .GroupBy(m => new { m.Diameter, m.Thickness, m.By }).Select(g => new { g.Key, Count = g.Sum(m => m.Change) }).ToListAsync(cancel);
        var promised = await context.ShimPromises.AsNoTracking().Where(p => except == null || p.JobId != except)
            .GroupBy(p => new { p.Diameter, p.Thickness, p.By })
            .Select(g => new { g.Key, Count = g.Sum(p => p.Count), Fitted = g.Sum(p => p.Fitted) }).ToListAsync(cancel);
        return new(
            sums.ToDictionary(s => new ShimSize(s.Key.Diameter, s.Key.Thickness, s.Key.By), s => s.Count),
            promised.ToDictionary(s => new ShimSize(s.Key.Diameter, s.Key.Thickness, s.Key.By), s => new PromisedCount(s.Count, s.Fitted)));
    }

    /// <summary>The entries of an action, in order, each with the count after it.</summary>
    public static async Task<IReadOnlyList<(LedgerEntry Entry, int After)>> OfActionAsync(BenchContext context, Guid action, CancellationToken cancel)
    {
        List<(LedgerEntry, int)> entries = [];
        foreach (ShimMoveRow row in await context.ShimMoves.AsNoTracking().Where(m => m.Action == action).OrderBy(m => m.Number).ToListAsync(cancel))
        {
            entries.Add((EntryOf(row), await context.ShimMoves
                .Where(m => m.Number <= row.Number && m.Diameter == row.Diameter && m.Thickness == row.Thickness && m.By == row.By).SumAsync(m => m.Change, cancel)));
        }

        return entries;
    }

    /// <summary>The entries after one.</summary>
    public static async Task<IReadOnlyList<LedgerEntry>> SinceAsync(BenchContext context, int number, CancellationToken cancel) =>
        [.. (await context.ShimMoves.AsNoTracking().Where(m => m.Number > number).OrderBy(m => m.Number).ToListAsync(cancel)).Select(EntryOf)];

    /// <summary>An entry as it is kept.</summary>
    public static LedgerEntry EntryOf(ShimMoveRow row) => new(
        row.Number, new(row.Diameter, row.Thickness, row.By), row.Change, (ShimReason)row.Reason, row.JobId, row.Undoes, row.Place, row.Price, row.Action, row.Device, row.At);

    /// <summary>An entry as a row.</summary>
    public static ShimMoveRow RowOf(LedgerEntry entry) => new()
    {
        Number = entry.Number,
        Diameter = entry.Size.Diameter,
        Thickness = entry.Size.Thickness,
        By = entry.Size.By,
        Change = entry.Change,
        Reason = (int)entry.Reason,
        JobId = entry.Job,
        Undoes = entry.Undoes,
        Place = entry.Place,
        Price = entry.Price,
        Action = entry.Action,
        Device = entry.Device,
        At = entry.At,
    };
}
