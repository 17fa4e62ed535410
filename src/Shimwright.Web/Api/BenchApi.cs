using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Shimwright.Jobs;
using Shimwright.Pages.Visits;
using Shimwright.Web.Visitors;

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
        routes.MapOpenApi().ForAccess(AccessRules.Look);
        RouteGroupBuilder api = routes.MapGroup("/api/v1").AddEndpointFilter(DeviceHeader.Require);
        // At the last: what an endpoint says of itself comes after what its group says.
        ((IEndpointConventionBuilder)api).Finally(e => e.Metadata.Add(new AuthorizeAttribute(e.Metadata.OfType<ApiAccess>().LastOrDefault()?.Rule ?? (e.Metadata.OfType<Writes>().Any() ? AccessRules.Work : AccessRules.Look))));
        ComputeApi.Map(api);
        EngineApi.Map(api);
        EngineForecastApi.Map(api);
        EngineRetiredApi.Map(api);
        JobApi.Map(api);
        FactsApi.Map(api);
        JobAnswerApi.Map(api);
        StepApi.Map(api);
        api.MapGet("/schema", Schema).WithTags("Work out").WithName("schema").WithSummary("The JSON Schema of the job file.");
    }

    private static ContentHttpResult Schema() => TypedResults.Text(JobFile.Schema(), "application/schema+json");
}
