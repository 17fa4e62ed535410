namespace Shimwright.Bench.Drawer;

/// <summary>The shop's drawer of shims: a ledger of entries that only grows, and what open jobs have promised of it.</summary>
public interface IDrawer
{
    /// <summary>Every size that was ever in the drawer, by diameter, then thickness.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The sizes with their counts.</returns>
    Task<IReadOnlyList<ShimLot>> LotsAsync(CancellationToken cancel = default);

    /// <summary>The entries of one size, the newest first.</summary>
    /// <param name="size">The size.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The entries, each with the count after it.</returns>
    Task<IReadOnlyList<DrawerMove>> HistoryAsync(ShimSize size, CancellationToken cancel = default);

    /// <summary>Entries of the ledger as they are kept, in order.</summary>
    /// <param name="after">Those after this number.</param>
    /// <param name="action">Those of one action; null for all.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The entries.</returns>
    Task<IReadOnlyList<LedgerEntry>> EntriesAsync(int after, Guid? action, CancellationToken cancel = default);

    /// <summary>Puts shims in.</summary>
    /// <param name="shims">The size, how many, and where and at what price, where that is said.</param>
    /// <param name="stamp">Who.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What became of it.</returns>
    /// <exception cref="ArgumentException">The stamp has no action, or a device without a name.</exception>
    Task<DrawerResult> AddAsync(ShimCount shims, DrawerStamp stamp, CancellationToken cancel = default);

    /// <summary>Says how many are lying in the drawer now. Those that an open job has fitted already belong to its count until it is closed.</summary>
    /// <param name="counted">The sizes that were counted; others stay as they are.</param>
    /// <param name="stamp">Who.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What became of it.</returns>
    /// <exception cref="ArgumentException">The stamp has no action, or a device without a name.</exception>
    Task<DrawerResult> CountAsync(IReadOnlyList<ShimCount> counted, DrawerStamp stamp, CancellationToken cancel = default);

    /// <summary>A shim that was known by its mark was measured with the micrometer: it is kept under its size from now on.</summary>
    /// <param name="marked">The size that its mark says.</param>
    /// <param name="thickness">What the micrometer says, mm.</param>
    /// <param name="place">Where it lies now, or null.</param>
    /// <param name="stamp">Who.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What became of it.</returns>
    /// <exception cref="ArgumentException">The stamp has no action, or a device without a name.</exception>
    Task<DrawerResult> MeasureAsync(ShimSize marked, double thickness, string? place, DrawerStamp stamp, CancellationToken cancel = default);

    /// <summary>Takes an entry back, by an entry of its own.</summary>
    /// <param name="number">The entry.</param>
    /// <param name="stamp">Who.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What became of it.</returns>
    /// <exception cref="ArgumentException">The stamp has no action, or a device without a name.</exception>
    Task<DrawerResult> UndoAsync(int number, DrawerStamp stamp, CancellationToken cancel = default);
}
