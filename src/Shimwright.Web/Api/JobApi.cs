using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Starting;
using Shimwright.Jobs;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Pages.Shell;

namespace Shimwright.Web.Api;

/// <summary>Jobs: starting, listing, their sheets and files.</summary>
internal static class JobApi
{
    private const int PerPage = 100;

    public static void Map(RouteGroupBuilder api)
    {
        RouteGroupBuilder jobs = api.MapGroup("/jobs").WithTags("Jobs");
        jobs.MapGet("", ListAsync).WithName("listJobs").WithSummary("List open jobs, or closed ones, 100 a page, the newest change first.");
        jobs.MapPost("", StartAsync).WithName("startJob").WithSummary("Start a job on an engine of the bench.")
            .WithDescription("Members: action (a UUID; the same sent twice starts one job), engine, clock, and if wanted temperatureC (20) and lowerClock: meter or right, why the clock shows less than the last one known.")
            .WithMetadata(new Writes(), new TakesBody("NewJob", "action, engine, clock, temperatureC, lowerClock"));
        jobs.MapPost("/file", ImportAsync).WithName("takeJobIn").WithSummary("Start a job from a whole job file, with every reading in it.")
            .WithDescription("The query's action is a UUID: the same sent twice starts one job. The query's engine is the engine it is for; left out, the file's card becomes a new engine.")
            .WithMetadata(new Writes(), new RequestSizeLimitAttribute(JobFile.LargestBytes), new TakesBody("JobFile", "A job file, format shimwright-job/1. Its schema: GET /api/v1/schema."));
        jobs.MapGet("/{id:guid}", GetAsync).WithName("getJob").WithSummary("Get a job: where it stands, and every entry of its sheet.");
        jobs.MapGet("/{id:guid}/file", FileAsync).WithName("getJobFile").WithSummary("Get the job file that the commands read.")
            .Produces<JsonObject>(StatusCodes.Status200OK, "application/json");
    }

    private static async Task<Ok<JobPageDocument>> ListAsync(IBench bench, CancellationToken cancel, string? open = null, string? page = null)
    {
        int number = Math.Clamp(Pager.Read(page), 1, 1_000_000);
        int skip = (number - 1) * PerPage;
        IReadOnlyList<JobSummary> jobs = open == "false"
            ? await bench.Jobs.ClosedAsync(skip, PerPage, cancel)
            : await bench.Jobs.OpenAsync(skip, PerPage, cancel);
        return TypedResults.Ok(new JobPageDocument(number, [.. jobs.Select(JobRow.Of)]));
    }

    private static async Task<Results<Ok<JobDocument>, Refused<NotThere>>> GetAsync(Guid id, IBench bench, CancellationToken cancel) =>
        await bench.Jobs.FindAsync(id, cancel) is { } job ? TypedResults.Ok(JobDocument.Of(job)) : new Refused<NotThere>();

    private static async Task<Results<FileContentHttpResult, Refused<NotThere>>> FileAsync(Guid id, IBench bench, CancellationToken cancel) =>
        await bench.Jobs.FindAsync(id, cancel) is { } job
            ? TypedResults.File(JobSheetFile.Write(job.Sheet), "application/json")
            : new Refused<NotThere>();

    private static async Task<Results<Created<JobDocument>, Refused<BadJson>, Refused<NotThere>, Refused<TooLarge>, Refused<WrongKind>, Refused<Wrong>>> StartAsync(
        HttpRequest request, IBench bench, CancellationToken cancel)
    {
        if (!JsonBody.IsJson(request))
        {
            return new Refused<WrongKind>();
        }

        List<JobProblem> problems = [];
        if (JsonBody.Object(await JsonBody.ReadAsync(request, cancel), problems) is not { } body)
        {
            return new Refused<BadJson>(problems);
        }

        JsonBody.NoteUnknown(body, problems, "action", "engine", "clock", "temperatureC", "lowerClock");
        Guid? action = JsonBody.Id(body, "action", problems, "make one for this start; the same sent twice starts one job");
        Guid? engineId = JsonBody.Id(body, "engine", problems, "GET /api/v1/engines lists them");
        double? clock = JsonBody.Number(body, "clock", problems);
        double? temperature = JsonBody.Number(body, "temperatureC", problems, usual: 20);
        if (action is not { } a || engineId is not { } id || clock is not { } c || temperature is not { } t || problems.Count > 0)
        {
            return new Refused<Wrong>(problems);
        }

        if (await bench.Engines.FindAsync(id, cancel) is not { } engine)
        {
            return new Refused<NotThere>(new JobProblem("$.engine", $"found \"{id}\"", "GET /api/v1/engines lists them"));
        }

        (Guid? job, IReadOnlyList<JobProblem> wrong) = await JobStart.OnAsync(bench, engine, new(c, t), JsonBody.Text(body, "lowerClock"), a, DeviceHeader.Of(request), cancel);
        return job is { } started
            ? await StartedAsync(bench, started, cancel)
            : new Refused<Wrong>([.. wrong.Select(p => p with { Path = p.Path.Replace("$.check.", "$.", StringComparison.Ordinal) })]);
    }

    private static async Task<Results<Created<JobDocument>, Refused<BadJson>, Refused<NotThere>, Refused<TooLarge>, Refused<WrongKind>, Refused<Wrong>>> ImportAsync(
        HttpRequest request, IBench bench, CancellationToken cancel, string? action = null, string? engine = null)
    {
        if (!JsonBody.IsJson(request))
        {
            return new Refused<WrongKind>();
        }

        byte[] body = await JsonBody.ReadAsync(request, cancel);
        if (!JsonBody.CanBeRead(body))
        {
            return new Refused<BadJson>(JobFile.Read(body, JobPurpose.Draft).Problems);
        }

        List<JobProblem> problems = [];
        if (!Guid.TryParse(action, out Guid sent) || sent == Guid.Empty)
        {
            problems.Add(new("action", $"found \"{action}\"", "a UUID is needed in the query: the same sent twice starts one job"));
        }

        Guid id = default;
        if (engine is not null && !Guid.TryParse(engine, out id))
        {
            problems.Add(new("engine", $"found \"{engine}\"", "a UUID is needed, or none: the file's card then becomes a new engine"));
        }

        if (problems.Count > 0)
        {
            return new Refused<Wrong>([.. problems, .. JobSetup.FromFile(body).Problems]);
        }

        if (engine is not null && await bench.Engines.FindAsync(id, cancel) is null)
        {
            return new Refused<NotThere>(new JobProblem("engine", $"found \"{id}\"", "GET /api/v1/engines lists them"));
        }

        StartedJob taken = await JobImport.RunAsync(bench, body, engine is null ? null : id, alwaysNew: true, (sent, DeviceHeader.Of(request)), cancel);
        return taken.Job is { } started ? await StartedAsync(bench, started, cancel) : new Refused<Wrong>(taken.Problems);
    }

    private static async Task<Created<JobDocument>> StartedAsync(IBench bench, Guid job, CancellationToken cancel) =>
        TypedResults.Created($"/api/v1/jobs/{job}", JobDocument.Of((await bench.Jobs.FindAsync(job, cancel))!));
}
