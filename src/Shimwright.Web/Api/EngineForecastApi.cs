using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;

namespace Shimwright.Web.Api;

/// <summary>The forecast of an engine of the bench: what the command answers, from its closed jobs and the rates that its card's engines have taught.</summary>
internal static class EngineForecastApi
{
    public static void Map(RouteGroupBuilder api) =>
        api.MapGet("/engines/{id:guid}/forecast", ForecastAsync)
            .WithTags("Engines").WithName("engineForecast")
            .WithSummary("By when an engine should be checked again.")
            .WithDescription("From the engine's closed jobs, the last one's work done, in the form of `shimwright forecast`. 404 says what is missing where there is no forecast yet.");

    private static async Task<Results<Answer<ForecastResult>, Refused<NotThere>>> ForecastAsync(Guid id, IBench bench, CancellationToken cancel) =>
        await bench.Engines.FindAsync(id, cancel) is not { } engine ? new Refused<NotThere>()
            : await bench.Due.OutlookAsync(id, cancel) is { } stored ? new Answer<ForecastResult>(stored.Outlook.ToResult(stored.Usual))
            : new Refused<NotThere>(engine.Card.Wear is null
                ? new JobProblem("engine.wear", "the card does not say what wear is usual", "put the maker's interval on the card")
                : new JobProblem("forecast", "no job on this engine was closed yet", "close one first"));
}
