using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Texts;
using Shimwright.Jobs.Members;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Drawer;

/// <summary>The shop's drawer of shims: a ledger of entries that only grows, and what open jobs have promised of it.</summary>
internal sealed partial class DrawerStore : IDrawer
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
        Dictionary<ShimSize, int> counts = await DrawerLedger.CountsAsync(context, null, cancel);
        Dictionary<ShimSize, (int Count, int Fitted)> promised = await DrawerLedger.PromisesAsync(context, null, cancel);
        List<ShimMoveRow> said = await context.ShimMoves.AsNoTracking().Where(m => m.Place != null || m.Price != null).OrderBy(m => m.Number).ToListAsync(cancel);
        HashSet<int> undone = [.. await context.ShimMoves.Where(m => m.Undoes != null).Select(m => m.Undoes!.Value).ToListAsync(cancel)];
        ILookup<ShimSize, ShimMoveRow> saidOf = said.Where(m => !undone.Contains(m.Number)).ToLookup(SizeOf);
        return
        [
            .. counts.OrderBy(c => c.Key.Diameter).ThenBy(c => c.Key.Thickness).ThenBy(c => c.Key.By, StringComparer.Ordinal).Select(c => new ShimLot(
                c.Key, c.Value, promised.GetValueOrDefault(c.Key).Count, promised.GetValueOrDefault(c.Key).Fitted,
                saidOf[c.Key].LastOrDefault(m => m.Place is not null)?.Place ?? "", saidOf[c.Key].LastOrDefault(m => m.Price is not null)?.Price)),
        ];
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<DrawerMove>> HistoryAsync(ShimSize size, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        List<ShimMoveRow> rows = await context.ShimMoves.AsNoTracking()
            .Where(m => m.Diameter == size.Diameter && m.Thickness == size.Thickness && m.By == size.By).OrderBy(m => m.Number).ToListAsync(cancel);
        Guid?[] jobs = [.. rows.Select(r => r.JobId).Where(j => j is not null).Distinct()];
        Dictionary<Guid, string> engines = await context.Jobs.Where(j => jobs.Contains(j.Id)).Select(j => new { j.Id, j.Engine.Name }).ToDictionaryAsync(j => j.Id, j => j.Name, cancel);
        HashSet<int> undone = [.. rows.Where(r => r.Undoes is not null).Select(r => r.Undoes!.Value)];
        List<DrawerMove> moves = [];
        int after = 0;
        foreach (ShimMoveRow row in rows)
        {
            after += row.Change;
            moves.Add(new(
                row.Number, size, row.Change, (ShimReason)row.Reason, row.JobId, row.JobId is { } job ? engines.GetValueOrDefault(job) : null,
                row.Undoes, undone.Contains(row.Number), row.Device, row.At, after));
        }

        moves.Reverse();
        return moves;
    }

    /// <inheritdoc/>
    public Task<DrawerResult> AddAsync(ShimCount shims, DrawerStamp stamp, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(shims);
        return WriteAsync([shims], stamp, (ledger, counts, _) =>
        {
            int there = counts.GetValueOrDefault(shims.Size);
            if (shims.Count < 1)
            {
                return [new("count", $"found {shims.Count}", "put at least one in; to say how many there are, count them")];
            }

            if (there + shims.Count > DrawerRules.MostCount)
            {
                return [new("count", $"found {there + shims.Count} shims of one size together", $"allowed are {DrawerRules.MostCount}")];
            }

            ledger.Write(RowOf(shims, shims.Count, ShimReason.Bought, stamp));
            return [];
        }, cancel);
    }

    /// <inheritdoc/>
    public Task<DrawerResult> CountAsync(IReadOnlyList<ShimCount> counted, DrawerStamp stamp, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(counted);
        return WriteAsync(counted, stamp, (ledger, counts, promised) =>
        {
            foreach (ShimCount shims in counted)
            {
                int now = shims.Count + Math.Min(promised.GetValueOrDefault(shims.Size).Fitted, counts.GetValueOrDefault(shims.Size));
                ledger.Write(RowOf(shims, now - counts.GetValueOrDefault(shims.Size), ShimReason.Stocktake, stamp));
            }

            return [];
        }, cancel);
    }

    /// <inheritdoc/>
    public async Task<DrawerResult> UndoAsync(int number, DrawerStamp stamp, CancellationToken cancel = default)
    {
        await using BenchContext look = _open();
        ShimMoveRow? move = await look.ShimMoves.AsNoTracking().FirstOrDefaultAsync(m => m.Number == number, cancel);
        if (move is null or { JobId: not null } or { Undoes: not null })
        {
            return new(AddOutcome.Refused, [move switch
            {
                null => new("entry", $"there is no entry {number}", "load the page again"),
                { Undoes: not null } => new("entry", $"entry {number} took another one back", "put the shims in again, or count what there is"),
                _ => new("entry", $"entry {number} comes from a job", "open the job again, and what it did to the drawer is taken back"),
            }]);
        }

        if (move.Reason == (int)ShimReason.Measured)
        {
            return await UnmeasureAsync(look, move, stamp, cancel);
        }

        return await WriteAsync([], stamp, (ledger, counts, promised) =>
        {
            ShimSize size = SizeOf(move);
            int left = counts[size] - move.Change;
            if (ledger.IsUndone(number))
            {
                return [new("entry", $"entry {number} was taken back already", "load the page again")];
            }

            if (left < promised.GetValueOrDefault(size).Count && move.Change > 0)
            {
                return [new("entry", $"without entry {number} there would be {left} of them, and open jobs have promised {promised.GetValueOrDefault(size).Count}",
                    "let one of those plans go first, or count what there is")];
            }

            if (left is < 0 or > DrawerRules.MostCount)
            {
                return [new("entry", $"without entry {number} there would be {left} of them", "take back what came after it first, or count what there is")];
            }

            ledger.Write(Opposite(move, stamp));
            return [];
        }, cancel);
    }

    private async Task<DrawerResult> WriteAsync(
        IReadOnlyList<ShimCount> shims, DrawerStamp stamp,
        Func<DrawerLedger, Dictionary<ShimSize, int>, Dictionary<ShimSize, (int Count, int Fitted)>, IReadOnlyList<JobProblem>> write, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(stamp);
        if (stamp.Action == Guid.Empty || !PlainText.CanNameADevice(stamp.Device))
        {
            throw new ArgumentException("What is done at the drawer has an action and a device with a name.", nameof(stamp));
        }

        JobProblem[] wrong = [.. shims.SelectMany(DrawerRules.ProblemsOf)
            .Concat(shims.GroupBy(s => s.Size).Where(g => g.Count() > 1).Select(g => new JobProblem("thickness", $"{DrawerRules.Mm(g.Key.ThicknessMm)} stands there twice", "each size once")))];
        if (wrong.Length > 0)
        {
            return new(AddOutcome.Refused, wrong);
        }

        await using BenchContext context = _open();
        await using IDbContextTransaction transaction = await context.Database.BeginTransactionAsync(cancel);
        DrawerLedger ledger = await DrawerLedger.HoldAsync(context, cancel);
        if (await context.ShimMoves.AnyAsync(m => m.Action == stamp.Action, cancel))
        {
            return new(AddOutcome.SavedBefore, []);
        }

        IReadOnlyList<JobProblem> problems = write(
            ledger, await DrawerLedger.CountsAsync(context, null, cancel), await DrawerLedger.PromisesAsync(context, null, cancel));
        if (problems.Count > 0)
        {
            return new(AddOutcome.Refused, problems);
        }

        await context.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
        return new(AddOutcome.Saved, []);
    }

    private ShimMoveRow RowOf(ShimCount shims, int change, ShimReason reason, DrawerStamp stamp) => new()
    {
        Diameter = shims.Size.Diameter,
        Thickness = shims.Size.Thickness,
        By = shims.Size.By,
        Change = change,
        Reason = (int)reason,
        Place = shims.Place is null ? null : PlainText.Of(shims.Place.Trim()),
        Price = shims.Price,
        Action = stamp.Action,
        Device = stamp.Device,
        At = Now(),
    };

    private ShimMoveRow Opposite(ShimMoveRow move, DrawerStamp stamp) => new()
    {
        Diameter = move.Diameter,
        Thickness = move.Thickness,
        By = move.By,
        Change = -move.Change,
        Reason = (int)ShimReason.Undone,
        Undoes = move.Number,
        Action = stamp.Action,
        Device = stamp.Device,
        At = Now(),
    };

    private static ShimSize SizeOf(ShimMoveRow row) => new(row.Diameter, row.Thickness, row.By);

    private DateTime Now() => _time.GetUtcNow().UtcDateTime;
}
