using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Closing;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Bench.Adding;

/// <summary>A job as it is before something is added to it, nobody else adding.</summary>
/// <param name="Sheet">Its sheet.</param>
/// <param name="StartedBy">The action that started it.</param>
/// <param name="Drawer">What the drawer has to say, held; null where it has nothing to do with the job or with what is added.</param>
public sealed record JobBefore(JobSheet Sheet, Guid StartedBy, JobDrawer? Drawer);

/// <summary>What an addition makes of a job: an answer to who sent it, and what is to be kept where it is saved.</summary>
/// <param name="Result">What became of it.</param>
/// <param name="Entries">The entries that are added; none where it is not saved.</param>
/// <param name="After">The job with them.</param>
/// <param name="Record">The record that is kept from now on, where the job was closed by this; null where it keeps the one it has, or is open.</param>
/// <param name="Shims">What it does to the drawer; null where nothing.</param>
public sealed record JobAddition(AddResult Result, IReadOnlyList<JobEntry> Entries, JobSheet After, JobRecord? Record, ShimsSettled? Shims)
{
    /// <summary>Adds to a job.</summary>
    /// <param name="job">The job as it is.</param>
    /// <param name="addition">What is added.</param>
    /// <param name="now">The time, UTC.</param>
    /// <returns>What it makes of the job.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static JobAddition Of(JobBefore job, Addition addition, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(addition);
        JobSheet sheet = job.Sheet;
        Addition whole = addition;
        if (job.Drawer is { Free: var free })
        {
            sheet = sheet.WithShop(free);
            whole = JobShims.Complete(sheet, free, addition);
        }

        if (AdditionRules.Reject(sheet, whole) is { } rejected)
        {
            return new(rejected, [], job.Sheet, null, null);
        }

        JobEntry[] added = [.. whole.Facts.Select((fact, i) => new JobEntry(sheet.Last + 1 + i, whole.Action, whole.Device, now, fact))];
        JobSheet after = JobSheet.Of(sheet.Setup, [.. sheet.Entries, .. added]).WithShop(sheet.Shop);
        ShimsSettled? shims = job.Drawer is null ? null : JobShims.Settle(sheet, after, job.StartedBy, job.Drawer);
        return shims is { Problems.Count: > 0 }
            ? new(new(AddOutcome.Refused, shims.Problems, []), [], job.Sheet, null, null)
            : new(new(AddOutcome.Saved, [], []), added, after, IsClosedBy(sheet, after, whole) ? RecordOfJob.Of(after) : null, shims);
    }

    private static bool IsClosedBy(JobSheet before, JobSheet after, Addition addition) =>
        after.Closing is not null && (before.Closing is null || addition.Facts.Any(f => f is JobClosed));
}
