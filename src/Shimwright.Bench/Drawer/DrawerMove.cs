

namespace Shimwright.Bench.Drawer;

/// <summary>Why a count changed.</summary>
public enum ShimReason
{
    /// <summary>Shims were bought or put in.</summary>
    Bought,

    /// <summary>The shims were counted.</summary>
    Stocktake,

    /// <summary>A closed job has used it.</summary>
    Taken,

    /// <summary>A closed job has left it over.</summary>
    CameOut,

    /// <summary>An entry was taken back, or the job behind it was opened again.</summary>
    Undone,

    /// <summary>A shim known by its mark was measured: it left the one size and came to the other, two entries of one action.</summary>
    Measured,
}

/// <summary>An entry of the ledger.</summary>
/// <param name="Number">Its number; numbers go up with time.</param>
/// <param name="Size">The size.</param>
/// <param name="Change">By how many the count changed.</param>
/// <param name="Reason">Why.</param>
/// <param name="Job">The job behind it, or null.</param>
/// <param name="Engine">The job's engine, or null.</param>
/// <param name="Undoes">The entry that it takes back, or null.</param>
/// <param name="IsUndone">Whether it was taken back.</param>
/// <param name="Device">The device.</param>
/// <param name="At">When, UTC.</param>
/// <param name="After">The count after it.</param>
public sealed record DrawerMove(
    int Number, ShimSize Size, int Change, ShimReason Reason, Guid? Job, string? Engine, int? Undoes, bool IsUndone, string Device, DateTime At, int After)
{
    /// <summary>Whether it can be taken back here; what a job did is taken back by opening the job again.</summary>
    public bool CanBeUndone { get; private init; }

    /// <summary>The history of a size, the newest entry first.</summary>
    /// <param name="entries">Its entries, in order.</param>
    /// <param name="engines">From a job to its engine's name.</param>
    /// <returns>The entries, each with the count after it.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static IReadOnlyList<DrawerMove> HistoryOf(IReadOnlyList<LedgerEntry> entries, IReadOnlyDictionary<Guid, string> engines)
    {
        ArgumentNullException.ThrowIfNull(entries);
        ArgumentNullException.ThrowIfNull(engines);
        HashSet<int> undone = [.. entries.Select(e => e.Undoes).OfType<int>()];
        List<DrawerMove> moves = [];
        int after = 0;
        foreach (LedgerEntry e in entries)
        {
            after += e.Change;
            moves.Add(new(
                e.Number, e.Size, e.Change, e.Reason, e.Job, e.Job is { } job ? engines.GetValueOrDefault(job) : null,
                e.Undoes, undone.Contains(e.Number), e.Device, e.At, after)
            {
                CanBeUndone = !undone.Contains(e.Number) && DrawerUndo.Bars(e.Number, e) is null,
            });
        }

        moves.Reverse();
        return moves;
    }
}
