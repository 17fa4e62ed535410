using Shimwright.Jobs.Written;

namespace Shimwright.Bench.Drawer;

/// <summary>What open jobs have promised of a size.</summary>
/// <param name="Count">How many.</param>
/// <param name="Fitted">How many of them are in an engine already.</param>
public readonly record struct PromisedCount(int Count, int Fitted);

/// <summary>What the ledger adds up to at one moment, nobody else writing.</summary>
/// <param name="Counts">How many there are of each size that the ledger knows.</param>
/// <param name="Promised">What is promised of each size.</param>
public sealed record DrawerCounts(IReadOnlyDictionary<ShimSize, int> Counts, IReadOnlyDictionary<ShimSize, PromisedCount> Promised)
{
    /// <summary>How many there are of a size.</summary>
    /// <param name="size">The size.</param>
    /// <returns>The number; 0 where the ledger does not know it.</returns>
    public int Of(ShimSize size) => Counts.GetValueOrDefault(size);

    /// <summary>What is promised of a size.</summary>
    /// <param name="size">The size.</param>
    /// <returns>The numbers; 0 where nothing is.</returns>
    public PromisedCount PromisedOf(ShimSize size) => Promised.GetValueOrDefault(size);

    /// <summary>How many are there beyond what is promised; below 0 where more is promised than there is.</summary>
    /// <param name="size">The size.</param>
    /// <returns>The number.</returns>
    public int FreeOf(ShimSize size) => Of(size) - PromisedOf(size).Count;

    /// <summary>What is free of one diameter, thinnest first.</summary>
    /// <param name="diameter">Diameter, whole micrometres.</param>
    /// <returns>The shims.</returns>
    public IReadOnlyList<ShimsAtHand> FreeOfDiameter(int diameter) =>
    [
        .. Counts.Keys.Where(s => s.Diameter == diameter && FreeOf(s) > 0)
            .OrderBy(s => s.Thickness).ThenBy(s => s.By, StringComparer.Ordinal)
            .Select(s => new ShimsAtHand(s.ThicknessMm, s.By, FreeOf(s))),
    ];

    /// <summary>Every size that was ever in the drawer, by diameter, then thickness.</summary>
    /// <param name="said">The entries that say where shims lie or what they cost and were not taken back, in order.</param>
    /// <param name="newest">The number of the newest entry of each size.</param>
    /// <returns>The sizes with their counts.</returns>
    public IReadOnlyList<ShimLot> Lots(IEnumerable<LedgerEntry> said, IReadOnlyDictionary<ShimSize, int> newest)
    {
        ILookup<ShimSize, LedgerEntry> saidOf = said.ToLookup(e => e.Size);
        return
        [
            .. Counts.OrderBy(c => c.Key.Diameter).ThenBy(c => c.Key.Thickness).ThenBy(c => c.Key.By, StringComparer.Ordinal).Select(c => new ShimLot(
                c.Key, c.Value, PromisedOf(c.Key).Count, PromisedOf(c.Key).Fitted,
                saidOf[c.Key].LastOrDefault(e => e.Place is not null)?.Place ?? "", saidOf[c.Key].LastOrDefault(e => e.Price is not null)?.Price, newest.GetValueOrDefault(c.Key))),
        ];
    }
}
