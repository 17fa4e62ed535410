using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Shimwright.Jobs;

namespace Shimwright.Web.Api;

/// <summary>The same work as JSON.</summary>
internal static class BenchApi
{
    public static void AddBenchApi(this IServiceCollection services)
    {
        services.AddOpenApi(ApiDocument.Describe);
        services.AddExceptionHandler<ApiFaults>();
        services.ConfigureHttpJsonOptions(json => json.SerializerOptions.Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping);
    }

    public static void MapBenchApi(this IEndpointRouteBuilder routes)
    {
        routes.MapOpenApi();
        RouteGroupBuilder api = routes.MapGroup("/api/v1").AddEndpointFilter(DeviceHeader.Require);
        ComputeApi.Map(api);
        EngineApi.Map(api);
        EngineForecastApi.Map(api);
        EngineRetiredApi.Map(api);
        JobApi.Map(api);
        FactsApi.Map(api);
        JobAnswerApi.Map(api);
        api.MapGet("/schema", Schema).WithTags("Work out").WithName("schema").WithSummary("The JSON Schema of the job file.");
    }

    private static ContentHttpResult Schema() => TypedResults.Text(JobFile.Schema(), "application/schema+json");
}
