using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Drawer;
using Shimwright.Jobs.Written;
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

    /// <summary>Whether an entry was taken back.</summary>
    public bool IsUndone(int number) => _context.ShimMoves.Any(m => m.Undoes == number);

    /// <summary>Adds an entry; it is written when the context is saved.</summary>
    public void Write(ShimMoveRow move)
    {
        move.Number = ++_row.Last;
        _context.ShimMoves.Add(move);
    }

    /// <summary>How many there are of each size that the ledger knows, of one diameter or of all.</summary>
    public static async Task<Dictionary<ShimSize, int>> CountsAsync(BenchContext context, int? diameter, CancellationToken cancel)
    {
        var sums = await context.ShimMoves.AsNoTracking().Where(m => diameter == null || m.Diameter == diameter)
            .GroupBy(m => new { m.Diameter, m.Thickness, m.By }).Select(g => new { g.Key, Count = g.Sum(m => m.Change) }).ToListAsync(cancel);
        return sums.ToDictionary(s => new ShimSize(s.Key.Diameter, s.Key.Thickness, s.Key.By), s => s.Count);
    }

    /// <summary>What is promised of each size, and how much of that is fitted already.</summary>
    /// <param name="context">The context.</param>
    /// <param name="except">A job whose own promises do not count.</param>
    /// <param name="cancel">Stops it.</param>
    public static async Task<Dictionary<ShimSize, (int Count, int Fitted)>> PromisesAsync(BenchContext context, Guid? except, CancellationToken cancel)
    {
        var sums = await context.ShimPromises.AsNoTracking().Where(p => except == null || p.JobId != except)
            .GroupBy(p => new { p.Diameter, p.Thickness, p.By })
            .Select(g => new { g.Key, Count = g.Sum(p => p.Count), Fitted = g.Sum(p => p.Fitted) }).ToListAsync(cancel);
        return sums.ToDictionary(s => new ShimSize(s.Key.Diameter, s.Key.Thickness, s.Key.By), s => (s.Count, s.Fitted));
    }

    /// <summary>What a job may use: everything of its diameter that no other open job has promised, thinnest first.</summary>
    public static async Task<IReadOnlyList<ShimsAtHand>> FreeForAsync(BenchContext context, int diameter, Guid job, CancellationToken cancel)
    {
        Dictionary<ShimSize, (int Count, int Fitted)> promised = await PromisesAsync(context, job, cancel);
        return
        [
            .. (await CountsAsync(context, diameter, cancel))
                .Select(c => (Size: c.Key, Free: c.Value - promised.GetValueOrDefault(c.Key).Count))
                .Where(c => c.Free > 0)
                .OrderBy(c => c.Size.Thickness).ThenBy(c => c.Size.By, StringComparer.Ordinal)
                .Select(c => new ShimsAtHand(c.Size.ThicknessMm, c.Size.By, c.Free)),
        ];
    }
}
