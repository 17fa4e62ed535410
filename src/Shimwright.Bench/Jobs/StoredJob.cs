using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Bench.Jobs;

/// <summary>A job in a list.</summary>
/// <param name="Id">The job.</param>
/// <param name="Number">Its number, counted by the bench; no other job is ever given it.</param>
/// <param name="EngineId">Its engine.</param>
/// <param name="Engine">The engine's name.</param>
/// <param name="Stage">Where it stands.</param>
/// <param name="Clock">The engine's clock at the check.</param>
/// <param name="StartedAt">When it was started, UTC.</param>
/// <param name="ChangedAt">When it was last added to, UTC.</param>
/// <param name="ClosedAt">When it was closed, UTC, or null.</param>
/// <param name="DiscardedAt">When it was discarded, UTC, or null.</param>
/// <param name="NothingToDo">Whether it was closed with every valve in band and none changed.</param>
public sealed record JobSummary(
    Guid Id, int Number, Guid EngineId, string Engine, JobStage Stage, double Clock, DateTime StartedAt, DateTime ChangedAt, DateTime? ClosedAt, DateTime? DiscardedAt = null, bool NothingToDo = false);

/// <summary>What the list of jobs tells of kept records.</summary>
public static class KeptRecords
{
    /// <summary>Whether a kept record is of a check that found nothing to do.</summary>
    /// <param name="record">The record as it is kept, or null.</param>
    /// <returns>Whether it is.</returns>
    public static bool IsNothingToDo(string? record) =>
        record is not null && record.Contains(JobRecord.Passed, StringComparison.Ordinal) && !record.Contains(JobRecord.HasChange, StringComparison.Ordinal);
}

/// <summary>A job with its sheet.</summary>
/// <param name="Summary">What lists show of it.</param>
/// <param name="Sheet">The sheet.</param>
/// <param name="Record">The record, where the job is closed.</param>
/// <param name="Follows">The job whose second round this is, or null.</param>
public sealed record StoredJob(JobSummary Summary, JobSheet Sheet, JobRecord? Record, Guid? Follows)
{
    /// <summary>The job's number as it is written: what a person has set, else what the bench has counted.</summary>
    public string Number => Sheet.Newest<JobNumbered>() is { Number.Length: > 0 } set ? set.Number : Summary.Number.ToString(System.Globalization.CultureInfo.InvariantCulture);
}

/// <summary>Where the past in a job's setup comes from.</summary>
/// <param name="Origin">From a file, from the engine's jobs, or from the job before.</param>
/// <param name="Follows">The job whose second round this is, or null.</param>
public readonly record struct JobPast(PastOrigin Origin, Guid? Follows)
{
    /// <summary>It stood in the file that was taken in.</summary>
    public static JobPast InFile => new(PastOrigin.File, null);

    /// <summary>It was put together from the engine's closed jobs.</summary>
    public static JobPast OfBench => new(PastOrigin.Bench, null);

    /// <summary>The job is the second round of another.</summary>
    /// <param name="job">The other.</param>
    /// <returns>Its past.</returns>
    public static JobPast SecondRoundOf(Guid job) => new(PastOrigin.SecondRound, job);
}
