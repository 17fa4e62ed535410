using Shimwright.Bench.Drawer;
using Shimwright.Bench.InStep;

namespace Shimwright.Bench.Following;

/// <summary>The drawer, what is done at it remembered.</summary>
internal sealed class FollowedDrawer(Follower follower, IDrawer inner) : IDrawer
{
    /// <inheritdoc/>
    public Task<IReadOnlyList<ShimLot>> LotsAsync(CancellationToken cancel = default) => inner.LotsAsync(cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<DrawerMove>> HistoryAsync(ShimSize size, CancellationToken cancel = default) => inner.HistoryAsync(size, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<LedgerEntry>> EntriesAsync(int after, Guid? action, CancellationToken cancel = default) => inner.EntriesAsync(after, action, cancel);

    /// <inheritdoc/>
    public Task<DrawerResult> AddAsync(ShimCount shims, DrawerStamp stamp, CancellationToken cancel = default)
    {
        DrawerWork.Check(stamp);
        return DoAsync(at => new ShimsPutIn(stamp.Action, at, shims), () => inner.AddAsync(shims, stamp, cancel));
    }

    /// <inheritdoc/>
    public Task<DrawerResult> CountAsync(IReadOnlyList<ShimCount> counted, DrawerStamp stamp, CancellationToken cancel = default)
    {
        DrawerWork.Check(stamp);
        DrawerStamp seen = stamp with { Seen = follower.SeenHere(stamp.Seen) };
        return DoAsync(at => new ShimsCounted(stamp.Action, at, counted, follower.SeenThere(seen.Seen)), () => inner.CountAsync(counted, seen, cancel));
    }

    /// <inheritdoc/>
    public Task<DrawerResult> MeasureAsync(ShimSize marked, double thickness, string? place, DrawerStamp stamp, CancellationToken cancel = default)
    {
        DrawerWork.Check(stamp);
        return DoAsync(at => new ShimMeasured(stamp.Action, at, marked, thickness, place), () => inner.MeasureAsync(marked, thickness, place, stamp, cancel));
    }

    /// <inheritdoc/>
    public Task<DrawerResult> UndoAsync(int number, DrawerStamp stamp, CancellationToken cancel = default)
    {
        DrawerWork.Check(stamp);
        return follower.DoAsync(
            async at => await inner.EntriesAsync(number - 1, null, cancel) is [{ Number: var found } entry, ..] && found == number
                ? new EntryTakenBack(stamp.Action, at, entry.Action, 1 + (await inner.EntriesAsync(0, entry.Action, cancel)).TakeWhile(e => e.Number != number).Count())
                : null,
            () => inner.UndoAsync(number, stamp, cancel));
    }

    private Task<DrawerResult> DoAsync(Func<DateTime, Deed> deed, Func<Task<DrawerResult>> work) => follower.DoAsync(at => Task.FromResult<Deed?>(deed(at)), work);
}
