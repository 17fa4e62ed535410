using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Drawer;

/// <summary>What it means to take an entry of the ledger back, by an entry of its own.</summary>
public static class DrawerUndo
{
    /// <summary>Why an entry is none that can be taken back, whatever lies in the drawer; null where it may be one.</summary>
    /// <param name="number">The entry's number.</param>
    /// <param name="entry">The entry, or null where there is none.</param>
    /// <returns>The problem, or null.</returns>
    public static JobProblem? Bars(int number, LedgerEntry? entry) => entry switch
    {
        null => new("entry", $"there is no entry {number}", "load the page again"),
        { Undoes: not null } => new("entry", $"entry {number} took another one back", "put the shims in again, or count what there is"),
        { IsOfJob: true, Job: null } => new("entry", $"entry {number} comes from a job that was removed", "count what there is"),
        { Job: not null } => new("entry", $"entry {number} comes from a job", "open the job again, and what it did to the drawer is taken back"),
        _ => null,
    };

    /// <summary>Takes an entry back; of a measuring both its entries.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="ofItsAction">All entries of its action, in order, itself among them.</param>
    /// <param name="isUndone">Whether it was taken back already.</param>
    /// <param name="drawer">What is there.</param>
    /// <returns>The entries, or why not.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static DrawerChange Of(LedgerEntry entry, IReadOnlyList<LedgerEntry> ofItsAction, bool isUndone, DrawerCounts drawer)
    {
        ArgumentNullException.ThrowIfNull(entry);
        ArgumentNullException.ThrowIfNull(ofItsAction);
        ArgumentNullException.ThrowIfNull(drawer);
        return isUndone ? DrawerChange.Refused("entry", $"entry {entry.Number} was taken back already", "load the page again")
            : entry.Reason == ShimReason.Measured ? Unmeasure(ofItsAction, drawer)
            : Uncount(entry, drawer);
    }

    private static DrawerChange Unmeasure(IReadOnlyList<LedgerEntry> both, DrawerCounts drawer)
    {
        ShimSize size = both.Single(e => e.Change > 0).Size;
        return drawer.FreeOf(size) < 1
            ? DrawerChange.Refused("entry", $"the shim of {DrawerRules.Mm(size.ThicknessMm)} was promised to a job or used since", "let that plan go first, or count what there is")
            : DrawerChange.Of([.. both.Select(Opposite)]);
    }

    private static DrawerChange Uncount(LedgerEntry entry, DrawerCounts drawer)
    {
        int left = drawer.Of(entry.Size) - entry.Change;
        int promised = drawer.PromisedOf(entry.Size).Count;
        return left < promised && entry.Change > 0
            ? DrawerChange.Refused("entry", $"without entry {entry.Number} there would be {left} of them, and open jobs have promised {promised}",
                "let one of those plans go first, or count what there is")
            : left is < 0 or > DrawerRules.MostCount
            ? DrawerChange.Refused("entry", $"without entry {entry.Number} there would be {left} of them", "take back what came after it first, or count what there is")
            : DrawerChange.Of(Opposite(entry));
    }

    private static NewEntry Opposite(LedgerEntry entry) => new(entry.Size, -entry.Change, ShimReason.Undone, entry.Number);
}
