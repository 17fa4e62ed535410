using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Adding;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Drawer;

/// <summary>The drawer as one job sees it.</summary>
internal static class DrawerOfJob
{
    /// <summary>The sheet with what the drawer has for it, where its card says which shims fit.</summary>
    public static async Task<JobSheet> WithShopAsync(BenchContext context, JobRow row, JobSheet sheet, CancellationToken cancel) =>
        await DiameterAsync(context, row, sheet, cancel) is not { } diameter ? sheet
        // With a plan accepted nothing rests on the drawer as it is now.
        : sheet.WithShop(sheet.Plan is null ? (await DrawerLedger.CountsAsync(context, diameter, row.Id, cancel)).FreeOfDiameter(diameter) : []);

    /// <summary>Holds the drawer for a job to which something is added; null where the job has nothing to do with it.</summary>
    public static async Task<(DrawerLedger Ledger, JobDrawer Drawer)?> HoldAsync(BenchContext context, JobRow row, JobSheet sheet, CancellationToken cancel)
    {
        // What was promised or moved for the job keeps its diameter, whatever became of the card since.
        int? known = await context.ShimPromises.Where(p => p.JobId == row.Id).Select(p => (int?)p.Diameter).FirstOrDefaultAsync(cancel)
            ?? await context.ShimMoves.Where(m => m.JobId == row.Id).OrderByDescending(m => m.Number).Select(m => (int?)m.Diameter).FirstOrDefaultAsync(cancel)
            ?? await DiameterAsync(context, row, sheet, cancel);
        if (known is not { } diameter)
        {
            return null;
        }

        DrawerLedger ledger = await DrawerLedger.HoldAsync(context, cancel);
        List<ShimPromiseRow> own = await context.ShimPromises.AsNoTracking().Where(p => p.JobId == row.Id).ToListAsync(cancel);
        var moved = await context.ShimMoves.AsNoTracking().Where(m => m.JobId == row.Id).GroupBy(m => new { m.Thickness, m.By })
            .Select(g => new { g.Key.Thickness, g.Key.By, Change = g.Sum(m => m.Change) }).Where(m => m.Change != 0).ToListAsync(cancel);
        return (ledger, new(
            diameter, await DrawerLedger.CountsAsync(context, diameter, row.Id, cancel),
            own.ToDictionary(p => new ShimSize(diameter, p.Thickness, p.By), p => new PromisedCount(p.Count, p.Fitted)),
            moved.ToDictionary(m => new ShimSize(diameter, m.Thickness, m.By), m => m.Change)));
    }

    /// <summary>Puts what a job has promised in the place of what it had; it is written when the context is saved.</summary>
    public static async Task PromiseAsync(BenchContext context, Guid job, IReadOnlyDictionary<ShimSize, PromisedCount> promises, CancellationToken cancel)
    {
        List<ShimPromiseRow> rows = await context.ShimPromises.Where(p => p.JobId == job).ToListAsync(cancel);
        foreach ((ShimSize size, PromisedCount promise) in promises)
        {
            ShimPromiseRow? row = rows.Find(r => new ShimSize(r.Diameter, r.Thickness, r.By) == size);
            if (row is null)
            {
                row = new() { JobId = job, Diameter = size.Diameter, Thickness = size.Thickness, By = size.By };
                context.ShimPromises.Add(row);
            }

            row.Count = promise.Count;
            row.Fitted = promise.Fitted;
        }

        context.ShimPromises.RemoveRange(rows.Where(r => !promises.ContainsKey(new(r.Diameter, r.Thickness, r.By))));
    }

    private static async Task<int?> DiameterAsync(BenchContext context, JobRow row, JobSheet sheet, CancellationToken cancel) =>
        !sheet.Engine.Valvetrain.HasShims ? null
        : JobShims.DiameterOf(sheet, CardDetails.Read(await context.Engines.Where(e => e.Id == row.EngineId).Select(e => e.Card.Details).FirstAsync(cancel)));
}
