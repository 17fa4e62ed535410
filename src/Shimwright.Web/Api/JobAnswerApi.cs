using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Web.Api;

/// <summary>The figures of a job that is kept.</summary>
internal static class JobAnswerApi
{
    public static void Map(RouteGroupBuilder api)
    {
        RouteGroupBuilder jobs = api.MapGroup("/jobs/{id:guid}").WithTags("Jobs");
        MapOne(jobs, "estimate", JobPurpose.Estimate, EstimateResult.Of, "The clearance of every valve as far as it was read.");
        MapOne(jobs, "plan", JobPurpose.Plan, PlanResult.WithFirst, "What to do at every valve.");
        MapOne(jobs, "next", JobPurpose.Next, NextResult.Of, "What is worth doing next, and what it saves; while shims go in, whether a dry fit pays; at the re-check, what to feel next.", s => JobAnswer.IsBeforePlan(s) ? null : new JobAnswer(s).Next);
        MapOne(jobs, "verdict", JobPurpose.Verdict, VerdictResult.Of, "The re-check, judged.");
        MapOne(jobs, "stops", JobPurpose.Stops, StopsResult.Of, "Where the crank has to stop.");
        MapOne(jobs, "forecast", JobPurpose.Forecast, ForecastResult.Of, "By when the engine should be checked again.");
        jobs.MapGet("record", RecordAsync).WithName("getRecord").WithSummary("The record of a closed job, as it stood when it was closed.");
    }

    private static void MapOne<T>(RouteGroupBuilder jobs, string name, JobPurpose purpose, Func<Job, T> answer, string summary, Func<JobSheet, T?>? atStage = null)
        where T : class =>
        jobs.MapGet(name, async Task<Results<Answer<T>, Refused<NotThere>, Refused<Wrong>>> (Guid id, IBench bench, CancellationToken cancel) =>
        {
            if (await bench.Jobs.FindAsync(id, cancel) is not { } job)
            {
                return new Refused<NotThere>();
            }

            if (atStage?.Invoke(job.Sheet) is { } now)
            {
                return new Answer<T>(now);
            }

            ParsedJob reading = JobSheetFile.Read(job.Sheet, purpose);
            return reading.Job is { } ready ? new Answer<T>(answer(ready)) : new Refused<Wrong>(reading.Problems);
        })
        .WithName($"job{char.ToUpperInvariant(name[0])}{name[1..]}").WithSummary(summary)
        .WithDescription($"What `shimwright {name}` says of the job's file. 422 says what the job still needs for it.");

    private static async Task<Results<Answer<JobRecord>, Refused<NotThere>>> RecordAsync(Guid id, IBench bench, CancellationToken cancel) =>
        await bench.Jobs.FindAsync(id, cancel) switch
        {
            { Record: { } record } => new Answer<JobRecord>(record),
            { } => new Refused<NotThere>(new JobProblem("record", "the job is open", "close it first")),
            null => new Refused<NotThere>(),
        };
}
