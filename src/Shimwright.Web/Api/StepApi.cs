using System.Globalization;
using System.Reflection;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Logging;
using Shimwright.Bench;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Devices;
using Shimwright.Bench.InStep;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Visits;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.Api;

/// <summary>A document that is JSON already.</summary>
/// <typeparam name="T">The kind of document.</typeparam>
internal sealed class StepDocument<T>(string json) : IResult, IEndpointMetadataProvider, IStatusCodeHttpResult
{
    int? IStatusCodeHttpResult.StatusCode => StatusCodes.Status200OK;

    public static void PopulateMetadata(MethodInfo method, EndpointBuilder builder) =>
        builder.Metadata.Add(new ProducesResponseTypeMetadata(StatusCodes.Status200OK, typeof(T), ["application/json"]));

    public Task ExecuteAsync(HttpContext httpContext)
    {
        httpContext.Response.ContentType = "application/json; charset=utf-8";
        return httpContext.Response.WriteAsync(json);
    }
}

/// <summary>Benches on phones keep in step with this one.</summary>
internal static partial class StepApi
{
    public static void Map(RouteGroupBuilder api)
    {
        // Who only looks on does not carry the bench away.
        RouteGroupBuilder step = api.MapGroup("/sync").WithTags("In step").WithMetadata(new ApiAccess(AccessRules.Take));
        step.MapGet("", ChangesAsync).WithName("changes").WithSummary("What has changed on the bench since a mark, or a first part of it.")
            .WithDescription("Query: bench, last, ledger, settings: the member mark of the answer before; left out for everything. rows are lines of an archive under keys, null where nothing lies there any more. Ask on while hasMore is true.");
        step.MapPost("", HearAsync).WithName("sendDeeds").WithSummary("Tell what was done away from the bench, each deed once.")
            .WithDescription("Members: pocket (a UUID that the sender has made for itself), now (its clock), bench (the member bench of the answer before; blank at first), deeds (at most 100, in order, each with its kind in the member deed). "
                + "A deed is done by the rules of whoever works here, and kept with the time at which it was done. The same id sent twice counts once, and is answered as at first. Where bench is another one, nothing is done.")
            .WithMetadata(new Writes(), new TakesBody("Step", "pocket, now, bench, deeds"), new RequestSizeLimitAttribute(StepJson.Largest));
        step.MapGet("/pictures/{id:guid}", PictureAsync).WithName("stepPicture").WithSummary("A picture with its content.");
    }

    private static async Task<StepDocument<StepChanges>> ChangesAsync(IBench bench, CancellationToken cancel, [FromQuery(Name = "bench")] string? known = null, string? last = null, string? ledger = null, string? settings = null)
    {
        StepMark mark = new(
            known ?? "", long.TryParse(last, NumberStyles.None, CultureInfo.InvariantCulture, out long change) ? change : 0, Number(ledger), Number(settings));
        return new(StepJson.Write(await StepDesk.ChangesAsync(bench, mark, cancel)));
    }

    private static async Task<Results<StepDocument<StepAnswered>, Refused<WrongKind>, Refused<Wrong>>> HearAsync(HttpRequest request, IBench bench, TimeProvider time, ILoggerFactory logs, CancellationToken cancel)
    {
        if (!JsonBody.IsJson(request))
        {
            return new Refused<WrongKind>();
        }

        if (StepJson.ReadSent(await JsonBody.ReadAsync(request, cancel)) is not { } sent)
        {
            return new Refused<Wrong>(new JobProblem("$", "found no step", FormattableString.Invariant($"pocket, now, bench and at most {StepJson.MostDeeds} deeds are needed")));
        }

        // What was begun is done: who sends it hears of it at the next time.
        return new StepDocument<StepAnswered>(
            StepJson.Write(await StepDesk.HearAsync(
                bench, sent, DeviceHeader.Of(request), Visitor.RoleOf(request.HttpContext.User) ?? DeviceRole.Reader, time.GetUtcNow().UtcDateTime,
                fault => LogFault(logs.CreateLogger(typeof(StepApi)), fault), cancel)));
    }

    [LoggerMessage(LogLevel.Error, "What a phone has sent was left out: the program failed on it.")]
    private static partial void LogFault(ILogger logger, Exception fault);

    private static async Task<Results<StepDocument<KeptPicture>, Refused<NotThere>>> PictureAsync(Guid id, IBench bench, CancellationToken cancel) =>
        bench is IStepped stepped && await stepped.PictureAsync(id, cancel) is { } picture ? new StepDocument<KeptPicture>(StepJson.Write(picture)) : new Refused<NotThere>();

    private static int Number(string? text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : 0;
}
