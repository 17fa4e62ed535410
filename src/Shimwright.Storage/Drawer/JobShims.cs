using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Written;
using Shimwright.Storage.Database;
using Shimwright.Storage.Engines;

namespace Shimwright.Storage.Drawer;

/// <summary>
/// What facts of a job mean for the drawer, in the transaction that adds them: an accepted plan promises its shims to the job, a
/// closed job takes them out and puts the old ones in, and whatever is taken back is taken back here too.
/// </summary>
internal sealed class JobShims
{
    private readonly BenchContext _context;
    private readonly DrawerLedger _ledger;
    private readonly Guid _job;
    private readonly int _diameter;
    private readonly IReadOnlyList<ShimsAtHand> _free;

    /// <summary>Whether the job was taken in with work done: those shims came from elsewhere.</summary>
    private readonly bool _cameWithWork;

    private JobShims(BenchContext context, DrawerLedger ledger, JobSheet sheet, JobRow row, int diameter, IReadOnlyList<ShimsAtHand> free)
    {
        _context = context;
        _ledger = ledger;
        Sheet = sheet.WithShop(free);
        _job = row.Id;
        _cameWithWork = sheet.Entries.Any(e => e.Action == row.Action && e.Fact is ChangeFact);
        _diameter = diameter;
        _free = free;
    }

    /// <summary>The job before the addition, with what the drawer has for it.</summary>
    public JobSheet Sheet { get; }

    /// <summary>The sheet with what the drawer has for it, where its card says which shims fit.</summary>
    public static async Task<JobSheet> WithShopAsync(BenchContext context, JobRow row, JobSheet sheet, CancellationToken cancel) =>
        await DiameterAsync(context, row, sheet, cancel) is not { } diameter ? sheet
        // With a plan accepted nothing rests on the drawer as it is now.
        : sheet.WithShop(sheet.Plan is null ? await DrawerLedger.FreeForAsync(context, diameter, row.Id, cancel) : []);

    /// <summary>Holds the drawer for an addition that may concern it; null where it does not.</summary>
    public static async Task<JobShims?> ForAsync(BenchContext context, JobRow row, JobSheet sheet, Addition addition, CancellationToken cancel)
    {
        if (!addition.Facts.Any(f => f is PlanAccepted or PlanReleased or StockStated or ChangeFact or JobClosed or JobReopened or Undone))
        {
            return null;
        }

        int? card = await DiameterAsync(context, row, sheet, cancel);
        // What was promised or moved for the job keeps its diameter, whatever became of the card since.
        int? known = await context.ShimPromises.Where(p => p.JobId == row.Id).Select(p => (int?)p.Diameter).FirstOrDefaultAsync(cancel)
            ?? await context.ShimMoves.Where(m => m.JobId == row.Id).OrderByDescending(m => m.Number).Select(m => (int?)m.Diameter).FirstOrDefaultAsync(cancel)
            ?? card;
        if (known is not { } diameter)
        {
            return null;
        }

        DrawerLedger ledger = await DrawerLedger.HoldAsync(context, cancel);
        return new(context, ledger, sheet, row, diameter, await DrawerLedger.FreeForAsync(context, diameter, row.Id, cancel));
    }

    /// <summary>Writes down what the drawer had where a plan is accepted from it, so that the job's figures no longer hang on it.</summary>
    public Addition Complete(Addition addition)
    {
        bool writesDown = JobTerms.UsesShop(Sheet) && Sheet.Plan is null && !addition.Facts.Any(f => f is StockStated);
        return addition with
        {
            Facts =
            [
                .. addition.Facts.SelectMany(f => f switch
                {
                    StockStated { FromShop: true } stated => [stated with { Drawer = _free }],
                    PlanAccepted when writesDown => [JobTerms.Stock(Sheet) with { Drawer = _free }, f],
                    _ => new[] { f },
                }),
            ],
        };
    }

    /// <summary>Brings promises and ledger to what the job is now; refuses what would put a shim into two places.</summary>
    public async Task<IReadOnlyList<JobProblem>> SettleAsync(JobSheet after, Addition addition, DateTime now, CancellationToken cancel)
    {
        Dictionary<ShimSize, int> counts = await DrawerLedger.CountsAsync(_context, _diameter, cancel);
        Dictionary<ShimSize, (int Count, int Fitted)> others = await DrawerLedger.PromisesAsync(_context, _job, cancel);
        List<JobProblem> problems = [];
        if (Sheet.Closing is null != after.Closing is null)
        {
            await MoveAsync(after, counts, others, new(addition.Action, addition.Device), now, problems, cancel);
        }

        // After the moves: a job that is opened again promises the very shims that its opening puts back.
        await PromiseAsync(after, counts, others, problems, cancel);
        return problems;
    }

    private async Task PromiseAsync(
        JobSheet after, Dictionary<ShimSize, int> counts, Dictionary<ShimSize, (int Count, int Fitted)> others, List<JobProblem> problems, CancellationToken cancel)
    {
        Dictionary<ShimSize, ShimsPromised> wanted = DrawerUse.Promised(after)
            .ToDictionary(p => new ShimSize(_diameter, ShimSize.Micrometres(p.Thickness), p.By));
        List<ShimPromiseRow> rows = await _context.ShimPromises.Where(p => p.JobId == _job).ToListAsync(cancel);
        foreach ((ShimSize size, ShimsPromised promise) in wanted)
        {
            ShimPromiseRow? row = rows.Find(r => r.Thickness == size.Thickness && r.By == size.By);
            int free = Math.Max(0, counts.GetValueOrDefault(size) - others.GetValueOrDefault(size).Count);
            if (promise.Count > (row?.Count ?? 0) && promise.Count > free)
            {
                problems.Add(new("plan", $"it takes {promise.Count} of {DrawerRules.Mm(size.ThicknessMm)} ({size.By}) from the drawer, which has {free} left for this job",
                    "another job has promised what is missing, or it was taken out; let the plan go, if one is accepted, and take one that is made from what is there now"));
            }

            if (row is null)
            {
                row = new() { JobId = _job, Diameter = size.Diameter, Thickness = size.Thickness, By = size.By };
                _context.ShimPromises.Add(row);
            }

            row.Count = promise.Count;
            row.Fitted = promise.Fitted;
        }

        _context.ShimPromises.RemoveRange(rows.Where(r => !wanted.ContainsKey(new(r.Diameter, r.Thickness, r.By))));
    }

    /// <summary>On closing: old shims in, used ones out, as far as the drawer knew of them. On opening again: the opposite of what was done.</summary>
    private async Task MoveAsync(
        JobSheet after, Dictionary<ShimSize, int> counts, Dictionary<ShimSize, (int Count, int Fitted)> others,
        DrawerStamp stamp, DateTime now, List<JobProblem> problems, CancellationToken cancel)
    {
        var done = await _context.ShimMoves.AsNoTracking().Where(m => m.JobId == _job).GroupBy(m => new { m.Thickness, m.By })
            .Select(g => new { g.Key.Thickness, g.Key.By, Change = g.Sum(m => m.Change) }).Where(m => m.Change != 0).ToListAsync(cancel);
        foreach (var move in done)
        {
            ShimSize size = new(_diameter, move.Thickness, move.By);
            int left = counts.GetValueOrDefault(size) - move.Change;
            if (move.Change > 0 && left < others.GetValueOrDefault(size).Count)
            {
                problems.Add(new("drawer", $"a shim of {DrawerRules.Mm(size.ThicknessMm)} ({size.By}) that came out of this job has been used or promised since",
                    "let the plan go that has promised it; where it is in another engine, leave this job closed and start a new one"));
            }

            Write(size, -move.Change, ShimReason.Undone);
        }

        if (after.Closing is null || !JobTerms.UsesShop(after) || _cameWithWork)
        {
            return;
        }

        IReadOnlyList<ShimExchange> exchanges = DrawerUse.Exchanges(after);
        foreach (var old in exchanges.Select(e => e.CameOut).OfType<ThicknessRow>().GroupBy(SizeOf))
        {
            Write(old.Key, old.Count(), ShimReason.CameOut);
        }

        foreach (var taken in exchanges.Select(e => e.Taken).OfType<ThicknessRow>().GroupBy(SizeOf))
        {
            int there = Math.Max(0, counts.GetValueOrDefault(taken.Key) - others.GetValueOrDefault(taken.Key).Count);
            Write(taken.Key, -Math.Min(taken.Count(), there), ShimReason.Taken);
        }

        void Write(ShimSize size, int change, ShimReason reason)
        {
            counts[size] = counts.GetValueOrDefault(size) + change;
            if (change != 0)
            {
                _ledger.Write(new()
                {
                    Diameter = size.Diameter,
                    Thickness = size.Thickness,
                    By = size.By,
                    Change = change,
                    Reason = (int)reason,
                    JobId = _job,
                    Action = stamp.Action,
                    Device = stamp.Device,
                    At = now,
                });
            }
        }
    }

    private ShimSize SizeOf(ThicknessRow shim) => new(_diameter, ShimSize.Micrometres(shim.Thickness), shim.By);

    private static async Task<int?> DiameterAsync(BenchContext context, JobRow row, JobSheet sheet, CancellationToken cancel)
    {
        if (!sheet.Engine.Valvetrain.HasShims)
        {
            return null;
        }

        string details = await context.Engines.Where(e => e.Id == row.EngineId).Select(e => e.Card.Details).FirstAsync(cancel);
        return EngineStore.ReadDetails(details).ShimDiameter is { } diameter ? ShimSize.Micrometres(diameter) : null;
    }
}
