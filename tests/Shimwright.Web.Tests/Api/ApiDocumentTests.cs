using System.Net;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.OpenApi;

namespace Shimwright.Web.Tests.Api;

public class ApiDocumentTests
{
    [Fact]
    public async Task Get_TheDocument_HasEveryEndpointWithItsAnswers()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        JsonNode document = (await new ApiClient(client).GetAsync("/openapi/v1.json")).Is(HttpStatusCode.OK).Json;
        Assert.Equal("Shimwright bench", (string)document["info"]!["title"]!);
        string[] described = [.. document["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject().Select(m => $"{m.Key.ToUpperInvariant()} {p.Key}")).Order(StringComparer.Ordinal)];
        string[] mapped = [.. bench.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(e => e.RoutePattern.RawText!.StartsWith("/api/v1", StringComparison.Ordinal))
            .SelectMany(e => e.Metadata.GetMetadata<HttpMethodMetadata>()!.HttpMethods.Select(m => $"{m} {Plain(e.RoutePattern.RawText!)}")).Order(StringComparer.Ordinal)];
        Assert.Equal(mapped, described);
        Assert.True(mapped.Length >= 20, string.Join(", ", mapped));
        Assert.All(document["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject()), o =>
        {
            Assert.False(string.IsNullOrWhiteSpace((string?)o.Value!["summary"]), o.Key);
            Assert.Contains(o.Value["responses"]!.AsObject(), r => r.Key is "200" or "201");
        });
    }

    [Fact]
    public async Task Get_TheDocument_NamesHeadersProblemsAndShapes()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        JsonNode paths = (await new ApiClient(client).GetAsync("/openapi/v1.json")).Json["paths"]!;
        JsonNode put = paths["/api/v1/engines/{id}"]!["put"]!;
        Assert.Contains(put["parameters"]!.AsArray(), p => (string)p!["name"]! == "X-Shimwright-Device" && (bool)p["required"]!);
        Assert.Contains(put["parameters"]!.AsArray(), p => (string)p!["name"]! == "If-Match");
        Assert.Equal(["200", "400", "404", "412", "413", "415", "422", "428"], put["responses"]!.AsObject().Select(r => r.Key).Order(StringComparer.Ordinal));
        Assert.NotNull(put["responses"]!["412"]!["content"]!["application/problem+json"]);
        JsonNode facts = paths["/api/v1/jobs/{id}/facts"]!["post"]!;
        Assert.Equal(["200", "400", "403", "404", "409", "415", "422"], facts["responses"]!.AsObject().Select(r => r.Key).Order(StringComparer.Ordinal));
        Assert.NotNull(paths["/api/v1/plan"]!["post"]!["requestBody"]);
    }

    [Fact]
    public async Task Get_TheDocument_IsReadWithoutAComplaint()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        var read = OpenApiDocument.Parse((await new ApiClient(client).GetAsync("/openapi/v1.json")).Body, "json");
        Assert.Empty(read.Diagnostic!.Errors);
        Assert.Empty(read.Diagnostic.Warnings);
        Assert.NotEmpty(read.Document!.Paths);
    }

    /// <summary>A route as the document writes it: without constraints.</summary>
    private static string Plain(string route) => route.Replace(":guid", "", StringComparison.Ordinal).TrimEnd('/');
}
