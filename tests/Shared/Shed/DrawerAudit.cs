using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Shimwright.Bench.Drawer;
using Shimwright.Storage;
using Shimwright.Storage.Database;
using Shimwright.Storage.Drawer;

namespace Shimwright.Testing.Shed;

/// <summary>What the tables say at one moment, nobody writing to the drawer.</summary>
/// <param name="Counts">How many of each size, as the program reckons.</param>
/// <param name="Promises">What open jobs have promised.</param>
internal sealed record DrawerState(IReadOnlyDictionary<ShimSize, int> Counts, IReadOnlyList<ShimPromiseRow> Promises);

/// <summary>
/// Reads the ledger entry by entry and adds it up by itself. It holds the drawer as a writer does, so what it sees belongs together
/// though others are at work.
/// </summary>
internal sealed class DrawerAudit(BenchDatabase database)
{
    private readonly Dictionary<ShimSize, int> _sums = [];
    private int _last;

    /// <summary>How many times the drawer was looked at.</summary>
    public int Looks { get; private set; }

    /// <summary>Entries in the ledger.</summary>
    public int Entries => _last;

    /// <summary>Looks at the drawer, and throws where it is wrong: a count that is not the sum of its entries or is below none, entries that
    /// are missing or there twice, or more promised than there is.</summary>
    /// <param name="afresh">Whether every entry is read again, not only those that are new.</param>
    public async Task<DrawerState> LookAsync(bool afresh = false)
    {
        await using BenchContext context = database.NewContext();
        return await context.InTransactionAsync(transaction => LookAsync(context, transaction, afresh), default);
    }

    private async Task<DrawerState> LookAsync(BenchContext context, IDbContextTransaction transaction, bool afresh)
    {
        await DrawerLedger.HoldAsync(context, default);
        if (afresh)
        {
            _sums.Clear();
            _last = 0;
        }

        foreach (ShimMoveRow move in await context.ShimMoves.AsNoTracking().Where(m => m.Number > _last).OrderBy(m => m.Number).ToListAsync())
        {
            ShimSize size = new(move.Diameter, move.Thickness, move.By);
            _sums[size] = _sums.GetValueOrDefault(size) + move.Change;
            Must(move.Number == ++_last, $"after entry {_last - 1} comes {move.Number}");
            Must(_sums[size] >= 0, $"after entry {move.Number} there are {_sums[size]} of {size}");
        }

        IReadOnlyDictionary<ShimSize, int> counts = (await DrawerLedger.CountsAsync(context, null, null, default)).Counts;
        List<ShimPromiseRow> promises = await context.ShimPromises.AsNoTracking().ToListAsync();
        await transaction.RollbackAsync();
        Looks++;
        Must(counts.Count == _sums.Count, $"there are {counts.Count} sizes and entries of {_sums.Count}");
        foreach ((ShimSize size, int count) in counts)
        {
            Must(count == _sums.GetValueOrDefault(size), $"there are {count} of {size}, and the entries add up to {_sums.GetValueOrDefault(size)}");
        }

        foreach (IGrouping<ShimSize, ShimPromiseRow> promise in promises.GroupBy(p => new ShimSize(p.Diameter, p.Thickness, p.By)))
        {
            int promised = promise.Sum(p => p.Count);
            Must(promised <= counts.GetValueOrDefault(promise.Key), $"{promised} of {promise.Key} are promised, and there are {counts.GetValueOrDefault(promise.Key)}");
            Must(promise.All(p => p.Count > 0 && p.Fitted >= 0 && p.Fitted <= p.Count), $"more of {promise.Key} are fitted than promised");
        }

        return new(counts, promises);
    }

    public static void Must(bool holds, string wrong)
    {
        if (!holds)
        {
            throw new InvalidOperationException($"The drawer is wrong: {wrong}.");
        }
    }
}
