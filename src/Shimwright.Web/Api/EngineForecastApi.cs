using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Jobs.Results;
using Shimwright.Storage.Database;

namespace Shimwright.Web.Api;

/// <summary>The forecast of an engine of the bench: what the command answers, from its closed jobs and the rates its card's engines have taught.</summary>
internal static class EngineForecastApi
{
    public static void Map(IEndpointRouteBuilder routes) =>
        routes.MapGet("/api/v1/engines/{id:guid}/forecast", Forecast)
            .WithTags("Engines").WithName("engineForecast")
            .WithSummary("Say by when an engine should be checked again.")
            .WithDescription("From the engine's closed jobs, the last one's work done: the document of POST /api/v1/forecast. 409 where no job was closed yet or the card does not say what wear is usual.")
            .Produces<ForecastResult>().ProducesProblem(StatusCodes.Status404NotFound).ProducesProblem(StatusCodes.Status409Conflict);

    private static async Task<Results<ContentHttpResult, ProblemHttpResult>> Forecast(Guid id, BenchDatabase database, CancellationToken cancel) =>
        await database.Engines.FindAsync(id, cancel) is not { } engine
            ? TypedResults.Problem(title: "There is no such engine.", statusCode: StatusCodes.Status404NotFound)
            : await database.Due.OutlookAsync(id, cancel) is not { } stored
                ? TypedResults.Problem(title: WhyNot(engine.Card.Wear is not null), statusCode: StatusCodes.Status409Conflict)
                : TypedResults.Text(ResultJson.Write(stored.Outlook.ToResult(stored.Usual), indented: false), "application/json");

    private static string WhyNot(bool hasWear) => hasWear
        ? "No job on this engine was closed yet; close one and there is a forecast."
        : "The card does not say what wear is usual; put the maker's interval on it.";
}
