using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Starting;

/// <summary>What became of a job that was to be started.</summary>
/// <param name="Job">The job, or null where there are problems.</param>
/// <param name="Problems">All problems.</param>
public sealed record StartedJob(Guid? Job, IReadOnlyList<JobProblem> Problems);
