using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Starting;

/// <summary>What became of a job that was to be started.</summary>
/// <param name="Job">The job, or null where there are problems.</param>
/// <param name="Problems">All problems.</param>
public sealed record StartedJob(Guid? Job, IReadOnlyList<JobProblem> Problems)
{
    /// <summary>What is said where an action has started another job before: what was sent with it now is not dropped unseen.</summary>
    internal static StartedJob Reused { get; } = new(null, [new("action", "this was sent before with different content", "load the page again, and send it as a new action")]);
}
