using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Shimwright.Jobs;
using Shimwright.Jobs.Results;

namespace Shimwright.Web.Api;

/// <summary>What the commands answer, for a job file that is sent: nothing of it is kept.</summary>
internal static class ComputeApi
{
    public static void Map(RouteGroupBuilder api)
    {
        RouteGroupBuilder compute = api.MapGroup("").WithTags("Work out").WithMetadata(new RequestSizeLimitAttribute(JobFile.LargestBytes));
        MapOne(compute, "estimate", JobPurpose.Estimate, EstimateResult.Of, "Estimate the clearance of every valve from the readings of a job file.");
        MapOne(compute, "plan", JobPurpose.Plan, PlanResult.WithFirst, "Plan what to do at every valve of a job file: keep, fit or turn.");
        MapOne(compute, "next", JobPurpose.Next, NextResult.Of, "Name what is worth doing next in a job file, and what it saves.");
        MapOne(compute, "verdict", JobPurpose.Verdict, VerdictResult.Of, "Judge the re-check of a job file.");
        MapOne(compute, "stops", JobPurpose.Stops, StopsResult.Of, "Find the crank stops at which every valve of a job file can be felt.");
        MapOne(compute, "forecast", JobPurpose.Forecast, ForecastResult.Of, "Say by when the engine of a job file should be checked again.");
    }

    private static void MapOne<T>(RouteGroupBuilder group, string name, JobPurpose purpose, Func<Job, T> answer, string summary) =>
        group.MapPost(name, async Task<Results<Answer<T>, Refused<BadJson>, Refused<TooLarge>, Refused<WrongKind>, Refused<Wrong>>> (HttpRequest request, CancellationToken cancel) =>
        {
            if (!JsonBody.IsJson(request))
            {
                return new Refused<WrongKind>();
            }

            byte[] body = await JsonBody.ReadAsync(request, cancel);
            ParsedJob reading = JobFile.Read(body, purpose);
            return reading.Job is { } job ? new Answer<T>(answer(job))
                : JsonBody.CanBeRead(body) ? new Refused<Wrong>(reading.Problems)
                : new Refused<BadJson>(reading.Problems);
        })
        .WithName(name).WithSummary(summary)
        .WithDescription($"The body is a job file; the answer is what `shimwright {name} --batch` prints for it.")
        .WithMetadata(new TakesBody("JobFile", "A job file, format shimwright-job/1. Its schema: GET /api/v1/schema."));
}
