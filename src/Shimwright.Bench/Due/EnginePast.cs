using Shimwright.Jobs.Due;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Past;

namespace Shimwright.Bench.Due;

/// <summary>A closed job with its times.</summary>
/// <param name="Job">The job as a part of its engine's past.</param>
/// <param name="StartedAt">When it was started, UTC.</param>
/// <param name="ClosedAt">When it was closed, UTC.</param>
public sealed record ClosedJob(PastJob Job, DateTime StartedAt, DateTime ClosedAt);

/// <summary>An engine's closed jobs, and what its clock showed when.</summary>
/// <param name="Jobs">The jobs, oldest first.</param>
/// <param name="Seen">What its clock showed.</param>
public sealed record EnginePast(IReadOnlyList<PastJob> Jobs, IReadOnlyList<ClockSeen> Seen)
{
    /// <summary>The past that closed jobs make up. Where the clock ran back, it begins with that job: how long the engine ran before is not known.</summary>
    /// <param name="closed">The jobs, in any order.</param>
    /// <returns>The past.</returns>
    public static EnginePast Of(IEnumerable<ClosedJob> closed)
    {
        ClosedJob[] all = [.. closed];
        DateTime from = all.Where(j => j.Job.Sheet.Newest<ClockAnswered>() is not null).Select(j => j.StartedAt).DefaultIfEmpty(DateTime.MinValue).Max();
        ClosedJob[] jobs = [.. all.Where(j => j.StartedAt >= from).OrderBy(j => j.Job.Sheet.Check.Clock).ThenBy(j => j.StartedAt).ThenBy(j => j.Job.Id)];
        return new([.. jobs.Select(j => j.Job)], [.. jobs.SelectMany(SeenAt)]);
    }

    private static IEnumerable<ClockSeen> SeenAt(ClosedJob job)
    {
        double check = job.Job.Sheet.Check.Clock;
        yield return new(check, job.StartedAt);
        yield return new(Math.Max(check, job.Job.Sheet.Closing?.Clock ?? 0), job.ClosedAt);
    }
}
