using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Visits;

namespace Shimwright.Web.Api;

/// <summary>Retiring an engine, and putting it back into use.</summary>
internal static class EngineRetiredApi
{
    public static void Map(RouteGroupBuilder api) =>
        api.MapPut("/engines/{id:guid}/retired", SetAsync).WithTags("Engines").WithName("retireEngine").WithSummary("Retire an engine, or put it back into use.")
            .WithDescription("Member: retired, true or false. The same sent twice changes nothing. Its jobs and records stay.")
            .WithMetadata(new Writes(), new ApiAccess(AccessRules.Settle), new TakesBody("RetiredEngine", "retired"));

    private static async Task<Results<Ok<EngineDocument>, Refused<BadJson>, Refused<NotThere>, Refused<WrongKind>, Refused<Wrong>>> SetAsync(
        Guid id, HttpRequest request, IBench bench, CancellationToken cancel)
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

        JsonBody.NoteUnknown(body, problems, "retired");
        bool retired = false;
        if (body["retired"] is not JsonValue value || !value.TryGetValue(out retired))
        {
            problems.Add(new("$.retired", body["retired"] is null ? "missing" : "found something else", "true or false is needed"));
        }

        return problems.Count > 0 ? new Refused<Wrong>(problems)
            : await bench.Engines.RetireAsync(id, retired, cancel) && await bench.Engines.FindAsync(id, cancel) is { } engine ? TypedResults.Ok(EngineDocument.Of(engine))
            : new Refused<NotThere>();
    }
}
