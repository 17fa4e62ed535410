using System.Globalization;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Texts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Drawer;

/// <summary>What is to be written into the ledger, or why it is not.</summary>
/// <param name="Entries">The entries; none where something is wrong.</param>
/// <param name="Problems">What is wrong.</param>
public sealed record DrawerChange(IReadOnlyList<NewEntry> Entries, IReadOnlyList<JobProblem> Problems)
{
    internal static DrawerChange Of(params IReadOnlyList<NewEntry> entries) => new(entries, []);

    internal static DrawerChange Refused(string path, string found, string allowed) => new([], [new(path, found, allowed)]);
}

/// <summary>What may be done at the drawer, and what it writes.</summary>
public static class DrawerWork
{
    private const string Marked = "marked", Micrometer = "micrometer";

    /// <summary>Refuses a stamp that names nothing.</summary>
    /// <param name="stamp">Who.</param>
    /// <exception cref="ArgumentException">It has no action, or a device without a name.</exception>
    public static void Check(DrawerStamp stamp)
    {
        ArgumentNullException.ThrowIfNull(stamp);
        if (stamp.Action == Guid.Empty || !PlainText.CanNameADevice(stamp.Device))
        {
            throw new ArgumentException("What is done at the drawer has an action and a device with a name.", nameof(stamp));
        }
    }

    /// <summary>What is wrong with sizes and counts, whatever lies in the drawer.</summary>
    /// <param name="shims">The sizes, each once.</param>
    /// <returns>The problems.</returns>
    /// <exception cref="ArgumentNullException">There are no sizes.</exception>
    public static IReadOnlyList<JobProblem> ProblemsOf(IReadOnlyList<ShimCount> shims) =>
    [
        .. shims.SelectMany(DrawerRules.ProblemsOf)
            .Concat(shims.GroupBy(s => s.Size).Where(g => g.Count() > 1).Select(g => new JobProblem("thickness", $"{DrawerRules.Mm(g.Key.ThicknessMm)} appears twice", "each size once"))),
    ];

    /// <summary>Puts shims in.</summary>
    /// <param name="shims">The size and how many.</param>
    /// <param name="drawer">What is there.</param>
    /// <returns>The entry, or why not.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static DrawerChange Add(ShimCount shims, DrawerCounts drawer)
    {
        ArgumentNullException.ThrowIfNull(shims);
        ArgumentNullException.ThrowIfNull(drawer);
        int together = drawer.Of(shims.Size) + shims.Count;
        return shims.Count < 1 ? DrawerChange.Refused("count", $"found {shims.Count}", "put at least one in; to say how many there are, count them")
            : together > DrawerRules.MostCount ? DrawerChange.Refused("count", $"found {together} shims of one size together", $"allowed are {DrawerRules.MostCount}")
            : DrawerChange.Of(EntryOf(shims, shims.Count, ShimReason.Bought));
    }

    /// <summary>Says how many are lying in the drawer now. Those that an open job has fitted already belong to its count until it is closed.</summary>
    /// <param name="counted">The sizes that were counted.</param>
    /// <param name="drawer">What is there by the ledger.</param>
    /// <returns>The entries.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static DrawerChange Count(IReadOnlyList<ShimCount> counted, DrawerCounts drawer)
    {
        ArgumentNullException.ThrowIfNull(counted);
        ArgumentNullException.ThrowIfNull(drawer);
        return DrawerChange.Of(
        [
            .. counted.Select(s => EntryOf(s, s.Count + Math.Min(drawer.PromisedOf(s.Size).Fitted, drawer.Of(s.Size)) - drawer.Of(s.Size), ShimReason.Stocktake)),
        ]);
    }

    /// <summary>Why a count is not taken: something was entered of its sizes since the person looked. What they had seen decides, not who sends.</summary>
    /// <param name="counted">The sizes that were counted.</param>
    /// <param name="since">The entries of these sizes that came since.</param>
    /// <param name="drawer">What is there.</param>
    /// <returns>The problems; none where nothing came in between.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static IReadOnlyList<JobProblem> Meanwhile(IReadOnlyList<ShimCount> counted, IEnumerable<LedgerEntry> since, DrawerCounts drawer)
    {
        ArgumentNullException.ThrowIfNull(counted);
        ArgumentNullException.ThrowIfNull(since);
        ArgumentNullException.ThrowIfNull(drawer);
        HashSet<ShimSize> changed = [.. since.Select(e => e.Size)];
        return
        [
            .. counted.Where(c => changed.Contains(c.Size)).Select(c => new JobProblem(
                "count", string.Create(CultureInfo.InvariantCulture, $"{DrawerRules.Mm(c.Size.ThicknessMm)} was changed since your page was loaded; there are {drawer.Of(c.Size)} now"),
                "check the count shown now, count again if in doubt and save again")),
        ];
    }

    /// <summary>Whether an action that was done before said the same: the same sizes for the same reason, as many of them, at the same place and price.</summary>
    /// <param name="before">The entries of the action, in order, each with the count after it.</param>
    /// <param name="now">What it would write now.</param>
    /// <param name="drawer">What is there now.</param>
    /// <returns>Whether it did.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static bool IsSame(IReadOnlyList<(LedgerEntry Entry, int After)> before, IReadOnlyList<NewEntry> now, DrawerCounts drawer)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(now);
        ArgumentNullException.ThrowIfNull(drawer);
        // A count says how many there are, whatever there was; everything else says how many more or fewer.
        return before.Select(b => (b.Entry.Size, b.Entry.Reason, b.Entry.Reason == ShimReason.Stocktake ? b.After : b.Entry.Change, b.Entry.Place, b.Entry.Price))
            .SequenceEqual(now.Select(n => (n.Size, n.Reason, n.Reason == ShimReason.Stocktake ? drawer.Of(n.Size) + n.Change : n.Change, n.Place, n.Price)));
    }

    /// <summary>What became of an action that was done before: nothing more is done, and it is said where it is not the same.</summary>
    /// <param name="before">The entries of the action, in order, each with the count after it.</param>
    /// <param name="now">What it would write now, or why it would not.</param>
    /// <param name="drawer">What is there now.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static DrawerResult Again(IReadOnlyList<(LedgerEntry Entry, int After)> before, DrawerChange now, DrawerCounts drawer)
    {
        ArgumentNullException.ThrowIfNull(now);
        // What cannot be done twice, such as taking the same entry back, is the same.
        return now.Problems.Count > 0 || IsSame(before, now.Entries, drawer)
            ? new(AddOutcome.SavedBefore, [])
            : new(AddOutcome.Reused, [new("action", "this was sent before with different content", "load the page again, and send it once more")]);
    }

    /// <summary>The shim that was measured, under its size.</summary>
    /// <param name="marked">The size that its mark says.</param>
    /// <param name="thickness">What the micrometer says, mm.</param>
    /// <param name="place">Where it lies now, or null.</param>
    /// <returns>One shim.</returns>
    public static ShimCount Measured(ShimSize marked, double thickness, string? place) =>
        new(ShimSize.Of(marked.DiameterMm, thickness, Micrometer), 1, place);

    /// <summary>Keeps a shim that was known by its mark under its size.</summary>
    /// <param name="marked">The size that its mark says.</param>
    /// <param name="measured">The shim as it was measured.</param>
    /// <param name="drawer">What is there.</param>
    /// <returns>Two entries, or why not.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static DrawerChange Measure(ShimSize marked, ShimCount measured, DrawerCounts drawer)
    {
        ArgumentNullException.ThrowIfNull(measured);
        ArgumentNullException.ThrowIfNull(drawer);
        if (marked.By != Marked || drawer.FreeOf(marked) < 1)
        {
            return DrawerChange.Refused("thickness", $"no shim of {DrawerRules.Mm(marked.ThicknessMm)} known by its mark is free", "count them first");
        }

        return !new MarkedShim("", marked.ThicknessMm, measured.Size.ThicknessMm).IsOne
            ? DrawerChange.Refused("thickness", $"found {DrawerRules.Mm(measured.Size.ThicknessMm)} for a mark of {DrawerRules.Mm(marked.ThicknessMm)}",
                $"that is more than {DrawerRules.Mm(MarkedShim.SameShim)} off and another shim, or a slip; measure again, or count both sizes")
            : DrawerChange.Of(EntryOf(new(marked, 1), -1, ShimReason.Measured), EntryOf(measured, 1, ShimReason.Measured));
    }

    private static NewEntry EntryOf(ShimCount shims, int change, ShimReason reason) =>
        new(shims.Size, change, reason, Place: shims.Place is null ? null : PlainText.Of(shims.Place.Trim()), Price: shims.Price);
}
