namespace Shimwright.Bench.Drawer;

/// <summary>An entry of the drawer's ledger as it is kept. Entries are added, never changed and never taken away.</summary>
/// <param name="Number">Its number; numbers go up with time, one by one.</param>
/// <param name="Size">The size.</param>
/// <param name="Change">By how many the count changed.</param>
/// <param name="Reason">Why.</param>
/// <param name="Job">The job behind it, or null.</param>
/// <param name="Undoes">The entry that it takes back, or null.</param>
/// <param name="Place">Where they lie; null where nothing was said.</param>
/// <param name="Price">The price of one; null where nothing was said.</param>
/// <param name="Action">The action that wrote it.</param>
/// <param name="Device">The device.</param>
/// <param name="At">When, UTC.</param>
public sealed record LedgerEntry(
    int Number, ShimSize Size, int Change, ShimReason Reason, Guid? Job, int? Undoes, string? Place, double? Price, Guid Action, string Device, DateTime At)
{
    /// <summary>Whether a job did it, though it may be gone by now.</summary>
    public bool IsOfJob => Job is not null || Reason is ShimReason.Taken or ShimReason.CameOut || (Reason == ShimReason.Undone && Undoes is null);
}

/// <summary>An entry that is to be written; the ledger gives it its number, and what is done its time and device.</summary>
/// <param name="Size">The size.</param>
/// <param name="Change">By how many the count changes.</param>
/// <param name="Reason">Why.</param>
/// <param name="Undoes">The entry that it takes back, or null.</param>
/// <param name="Place">Where they lie; null where nothing is said.</param>
/// <param name="Price">The price of one; null where nothing is said.</param>
public sealed record NewEntry(ShimSize Size, int Change, ShimReason Reason, int? Undoes = null, string? Place = null, double? Price = null)
{
    /// <summary>The entry as it is kept.</summary>
    /// <param name="number">Its number.</param>
    /// <param name="job">The job behind it, or null.</param>
    /// <param name="stamp">Who.</param>
    /// <param name="at">When, UTC.</param>
    /// <returns>The entry.</returns>
    /// <exception cref="ArgumentNullException">There is no stamp.</exception>
    public LedgerEntry Numbered(int number, Guid? job, DrawerStamp stamp, DateTime at)
    {
        ArgumentNullException.ThrowIfNull(stamp);
        return new(number, Size, Change, Reason, job, Undoes, Place, Price, stamp.Action, stamp.Device, at);
    }
}
