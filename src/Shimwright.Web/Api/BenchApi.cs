using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Shimwright.Storage.Database;

namespace Shimwright.Web.Api;

/// <summary>The same work as JSON.</summary>
internal static class BenchApi
{
    public static void AddBenchApi(this IServiceCollection services) => services.AddOpenApi();

    public static void MapBenchApi(this IEndpointRouteBuilder routes)
    {
        routes.MapOpenApi();
        routes.MapGet("/healthz", Health).ExcludeFromDescription();
    }

    private static async Task<Results<Ok<string>, StatusCodeHttpResult>> Health(BenchDatabase database, CancellationToken cancel) =>
        await database.AnswersAsync(cancel) ? TypedResults.Ok("ok") : TypedResults.StatusCode(StatusCodes.Status503ServiceUnavailable);
}
