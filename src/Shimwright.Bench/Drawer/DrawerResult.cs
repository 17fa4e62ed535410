using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Drawer;

/// <summary>Who does something at the drawer; the same action twice counts once.</summary>
/// <param name="Action">The action.</param>
/// <param name="Device">The device.</param>
/// <param name="Seen">The number of the last entry that the person had seen of what is counted; null where nobody looked before.</param>
public sealed record DrawerStamp(Guid Action, string Device, int? Seen = null)
{
    /// <summary>Actions after that which the person had seen too.</summary>
    public IReadOnlySet<Guid> AlsoSeen { get; init; } = new HashSet<Guid>();

    /// <summary>Those of some entries that the person had not seen.</summary>
    /// <param name="since">Entries that came after the last one that the person had seen.</param>
    /// <returns>The entries.</returns>
    public IEnumerable<LedgerEntry> Unseen(IEnumerable<LedgerEntry> since) => since.Where(e => !AlsoSeen.Contains(e.Action));
}

/// <summary>What became of it.</summary>
/// <param name="Outcome">What became of it.</param>
/// <param name="Problems">What is wrong.</param>
public sealed record DrawerResult(AddOutcome Outcome, IReadOnlyList<JobProblem> Problems)
{
    /// <summary>Whether it is on the disk.</summary>
    public bool IsSaved => Outcome is AddOutcome.Saved or AddOutcome.SavedBefore;
}
