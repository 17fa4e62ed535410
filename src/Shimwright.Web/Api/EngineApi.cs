using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Shell;

namespace Shimwright.Web.Api;

/// <summary>A part of the list of engines.</summary>
internal sealed record EnginePageDocument(int Count, int Page, int Pages, IReadOnlyList<EngineSummary> Engines);

/// <summary>An engine with its card, the member "engine" of a job file.</summary>
internal sealed record EngineDocument(
    Guid Id, string Name, string Notes, string Owner, string Frame, Guid CardId, string CardTitle, int SharedBy, string Version, JsonElement Card, CardDetails Details, DateTime? RetiredAt)
{
    public static EngineDocument Of(StoredEngine engine) => new(
        engine.Id, engine.Name, engine.Notes, engine.Papers.Owner, engine.Papers.Frame, engine.CardId, engine.CardTitle, engine.SharedBy, VersionOf(engine),
        JsonElement.Parse(engine.Card.Json), engine.Details, engine.RetiredAt);

    public static string VersionOf(StoredEngine engine) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{engine.Version}.{engine.CardVersion}");
}

/// <summary>Engines and their cards.</summary>
internal static class EngineApi
{
    private const int PerPage = 100;

    public static void Map(RouteGroupBuilder api)
    {
        RouteGroupBuilder engines = api.MapGroup("/engines").WithTags("Engines");
        engines.MapGet("", ListAsync).WithName("listEngines").WithSummary("List engines in use, or with retired=true retired ones, those whose name holds q, 100 a page.");
        engines.MapGet("/{id:guid}", GetAsync).WithName("getEngine").WithSummary("Get an engine with its card.")
            .WithDescription("The answer's ETag, also its member version, is what If-Match asks for when the engine is changed.");
        engines.MapPost("", AddAsync).WithName("addEngine").WithSummary("Add an engine with a card of its own.")
            .WithDescription("Members: card (the member \"engine\" of a job file), and if wanted details, notes, owner, frame, and id: the same id sent twice adds one.")
            .WithMetadata(new Writes(), new TakesBody("NewEngine", "card, and if wanted id, details, notes, owner, frame"));
        engines.MapPut("/{id:guid}", ChangeAsync).WithName("changeEngine").WithSummary("Change an engine and its card.")
            .WithDescription("If-Match carries the version that was seen. A card that several engines share is changed for all; open jobs keep the card they were started with.")
            .WithMetadata(new Writes(), new TakesBody("ChangedEngine", "card, and if wanted details, notes: left out they become blank; owner, frame: both left out they stay"));
    }

    private static async Task<Ok<EnginePageDocument>> ListAsync(IBench bench, CancellationToken cancel, string? q = null, string? page = null, string? retired = null)
    {
        bool isRetired = retired == "true";
        int count = isRetired ? await bench.Engines.CountRetiredAsync(q, cancel) : await bench.Engines.CountAsync(q, cancel);
        var pager = new Pager(count, PerPage, Pager.Read(page));
        return TypedResults.Ok(new EnginePageDocument(
            count, pager.Page, pager.Last,
            isRetired ? await bench.Engines.RetiredAsync(q, pager.Skip, PerPage, cancel) : await bench.Engines.ListAsync(q, pager.Skip, PerPage, cancel)));
    }

    private static async Task<Results<Ok<EngineDocument>, Refused<NotThere>>> GetAsync(Guid id, HttpResponse response, IBench bench, CancellationToken cancel) =>
        await bench.Engines.FindAsync(id, cancel) is { } engine ? TypedResults.Ok(Tagged(engine, response)) : new Refused<NotThere>();

    private static async Task<Results<Created<EngineDocument>, Refused<BadJson>, Refused<TooLarge>, Refused<WrongKind>, Refused<Wrong>>> AddAsync(
        HttpRequest request, IBench bench, TimeProvider time, CancellationToken cancel)
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

        JsonBody.NoteUnknown(body, problems, "id", "card", "details", "notes", "owner", "frame");
        Guid? id = body["id"] is null ? Guid.CreateVersion7(time.GetUtcNow()) : JsonBody.Id(body, "id", problems, "leave it out, or make one for this engine");
        EngineBody engine = EngineBody.Read(body, problems);
        if (problems.Count > 0)
        {
            return new Refused<Wrong>(problems);
        }

        await bench.Engines.AddAsync(id!.Value, engine.Card!.Engine.Name, engine.Card, engine.Details, engine.Notes, engine.Papers, cancel);
        StoredEngine kept = (await bench.Engines.FindAsync(id.Value, cancel))!;
        return TypedResults.Created($"/api/v1/engines/{id}", Tagged(kept, request.HttpContext.Response));
    }

    private static async Task<Results<Ok<EngineDocument>, Refused<BadJson>, Refused<NotThere>, EngineRefusal>> ChangeAsync(
        Guid id, HttpRequest request, IBench bench, CancellationToken cancel)
    {
        if (!JsonBody.IsJson(request))
        {
            return new EngineRefusal(new Refused<WrongKind>());
        }

        if (Seen(request) is not { } seen)
        {
            return new EngineRefusal(new Refused<NoVersion>(new JobProblem("If-Match", $"found \"{request.Headers.IfMatch}\"", "get the engine and send its ETag")));
        }

        List<JobProblem> problems = [];
        if (JsonBody.Object(await JsonBody.ReadAsync(request, cancel), problems) is not { } body)
        {
            return new Refused<BadJson>(problems);
        }

        JsonBody.NoteUnknown(body, problems, "card", "details", "notes", "owner", "frame");
        EngineBody engine = EngineBody.Read(body, problems);
        if (problems.Count > 0)
        {
            return new EngineRefusal(new Refused<Wrong>(problems));
        }

        SaveOutcome outcome = await bench.Engines.SaveAsync((id, seen.Engine, seen.Card), engine.Card!.Engine.Name, engine.Card, engine.Details, engine.Notes, engine.Papers, cancel);
        return outcome switch
        {
            SaveOutcome.Saved => TypedResults.Ok(Tagged((await bench.Engines.FindAsync(id, cancel))!, request.HttpContext.Response)),
            SaveOutcome.ChangedMeanwhile => new EngineRefusal(new Refused<Outdated>(new JobProblem("If-Match", $"found \"{request.Headers.IfMatch}\"", "get the engine again, put your change into it, and send that"))),
            _ => new Refused<NotThere>(),
        };
    }

    /// <summary>The versions that were seen: of the engine and of its card, as the ETag has them.</summary>
    private static (int Engine, int Card)? Seen(HttpRequest request) =>
        request.Headers.IfMatch.ToString().Trim('"').Split('.') is [var engine, var card]
        && int.TryParse(engine, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out int e)
        && int.TryParse(card, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out int c)
            ? (e, c)
            : null;

    private static EngineDocument Tagged(StoredEngine engine, HttpResponse response)
    {
        response.Headers.ETag = $"\"{EngineDocument.VersionOf(engine)}\"";
        return EngineDocument.Of(engine);
    }
}
