using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Drawer;

/// <summary>Who does something at the drawer; the same action twice counts once.</summary>
/// <param name="Action">The action.</param>
/// <param name="Device">The device.</param>
/// <param name="Seen">The number of the last entry that the person had seen of what is counted; null where nobody looked before.</param>
public sealed record DrawerStamp(Guid Action, string Device, int? Seen = null);

/// <summary>What became of it.</summary>
/// <param name="Outcome">What became of it.</param>
/// <param name="Problems">What is wrong.</param>
public sealed record DrawerResult(AddOutcome Outcome, IReadOnlyList<JobProblem> Problems)
{
    /// <summary>Whether it is on the disk.</summary>
    public bool IsSaved => Outcome is AddOutcome.Saved or AddOutcome.SavedBefore;
}
