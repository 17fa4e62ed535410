using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Pages.Jobs;

namespace Shimwright.Pages.Files;

/// <summary>The jobs, and what was read at one.</summary>
internal static class JobLists
{
    public static BenchList Jobs { get; } = BenchList.Of<(JobSummary Job, string? Unit)>("Jobs, open ones first", "/jobs/jobs.csv",
    [
        new("job", "number that the bench has counted", j => j.Job.Number),
        new("job_id", "the bench's id for it", j => j.Job.Id),
        new("engine", "name of the engine", j => j.Job.Engine),
        new("engine_id", "the bench's id for it", j => j.Job.EngineId),
        new("stage", "measure, shims, plan, fit, re-check, close or closed", j => StageOf(j.Job)),
        new("clock", "clock of the check", j => j.Job.Clock),
        new("clock_unit", "h or km", j => j.Unit),
        new("started_at", "when it was started, UTC", j => j.Job.StartedAt),
        new("closed_at", "when it was closed, UTC", j => j.Job.ClosedAt),
        new("nothing_to_do", "yes: closed with every valve in band and none changed", j => j.Job.NothingToDo),
    ],
    async ask =>
    {
        ClockUnits units = new(ask.Bench, ask.Cancel);
        await units.EnginesAsync();
        IReadOnlyList<JobSummary> open = await ask.Bench.Jobs.OpenAsync(0, BenchLists.MostRows, ask.Cancel);
        IReadOnlyList<JobSummary> closed = await ask.Bench.Jobs.ClosedAsync(0, BenchLists.MostRows, ask.Cancel);
        return open.Concat(closed).Select(j => (j, units.Of(j.EngineId)));
    });

    public static BenchList Readings { get; } = BenchList.Of<(JobEntry Entry, ReadingFact Fact)>("Readings of a job, in the order in which they were taken", "/jobs/{id:guid}/readings.csv",
    [
        new("number", "place on the job's sheet", r => r.Entry.Number),
        new("read_at", "when, UTC", r => r.Entry.At),
        new("round", "check, dry fit or re-check", r => RoundOf(r.Fact.Part)),
        new("valve", "valve", r => r.Fact.Valve),
        new("reading", "blade, bucket, value or depth", r => KindOf(r.Fact)),
        new("blade_mm", "the blade or stack", r => (r.Fact as BladeTried)?.Blade),
        new("leaves", "leaves in the stack", r => (r.Fact as BladeTried)?.Leaves),
        new("feel", "no, firm, light or loose", r => (r.Fact as BladeTried)?.Feel),
        new("turns", "whether the bucket turns by hand", r => (r.Fact as BucketTurned)?.Turns),
        new("clearance_mm", "the clearance, where it was measured as a number", r => (r.Fact as ClearanceRead)?.Value),
        new("clearance_u_mm", "its standard uncertainty", r => (r.Fact as ClearanceRead)?.U),
        new("depth_mm", "the depth, where one was taken", r => (r.Fact as DepthTaken)?.Bucket.Value),
        new("depth_u_mm", "its standard uncertainty", r => (r.Fact as DepthTaken)?.Bucket.U),
    ],
    async ask => await ask.Bench.Jobs.FindAsync(ask.Id("id"), ask.Cancel) is not { } job ? null
        : job.Sheet.InForce.Where(e => e.Fact is ReadingFact).Select(e => (e, (ReadingFact)e.Fact)));

    private static string StageOf(JobSummary job) => job.ClosedAt is null ? StageLink.NameOf(job.Stage).ToLowerInvariant() : "closed";

    private static string RoundOf(SheetPart part) => part switch
    {
        SheetPart.Check => "check",
        SheetPart.DryFit => "dry fit",
        _ => "re-check",
    };

    private static string KindOf(ReadingFact fact) => fact switch
    {
        BladeTried => "blade",
        BucketTurned => "bucket",
        ClearanceRead => "value",
        _ => "depth",
    };
}
