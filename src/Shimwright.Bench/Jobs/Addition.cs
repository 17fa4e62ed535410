using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Jobs;

/// <summary>What became of an addition.</summary>
public enum AddOutcome
{
    /// <summary>It is on the disk.</summary>
    Saved,

    /// <summary>The same action was saved before; nothing was added.</summary>
    SavedBefore,

    /// <summary>The same action was saved before with other content; nothing was added.</summary>
    Reused,

    /// <summary>Something was added in between that has to be seen first; nothing was added.</summary>
    Conflict,

    /// <summary>Something is wrong with it; nothing was added.</summary>
    Refused,

    /// <summary>There is no such job.</summary>
    NoSuchJob,
}

/// <summary>What became of an addition, with what is wrong or what came in between.</summary>
/// <param name="Outcome">What became of it.</param>
/// <param name="Problems">What is wrong with it.</param>
/// <param name="Unseen">What was added in between and has to be seen first.</param>
public sealed record AddResult(AddOutcome Outcome, IReadOnlyList<JobProblem> Problems, IReadOnlyList<JobEntry> Unseen)
{
    /// <summary>Whether the addition is on the disk.</summary>
    public bool IsSaved => Outcome is AddOutcome.Saved or AddOutcome.SavedBefore;
}

/// <summary>What a person sends: facts that belong to one action.</summary>
/// <param name="Action">The action; the same sent twice counts once.</param>
/// <param name="Device">The device.</param>
/// <param name="Seen">The number of the last entry that the person had seen.</param>
/// <param name="Facts">The facts.</param>
public sealed record Addition(Guid Action, string Device, int Seen, IReadOnlyList<JobFact> Facts)
{
    /// <summary>Actions after that which the person had seen too: what was done on a device away from the bench is numbered only when it comes.</summary>
    public IReadOnlySet<Guid> AlsoSeen { get; init; } = new HashSet<Guid>();
}
