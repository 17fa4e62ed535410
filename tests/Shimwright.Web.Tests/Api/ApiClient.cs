using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;

namespace Shimwright.Web.Tests.Api;

/// <summary>An answer of the API: its status, its kind and its body.</summary>
public sealed record ApiAnswer(HttpStatusCode Status, string? Kind, string Body, Uri? Location, string? Tag)
{
    public JsonNode Json => JsonNode.Parse(Body)!;

    /// <summary>The paths of everything that is wrong.</summary>
    public IReadOnlyList<string> Paths => [.. Json["errors"]!.AsArray().Select(e => (string)e!["path"]!)];

    /// <summary>Asserts that this is a problem of a status, with its title.</summary>
    public ApiAnswer IsProblem(HttpStatusCode status)
    {
        Assert.True(status == Status, $"{Status}: {Body}");
        Assert.Equal("application/problem+json", Kind);
        Assert.Equal((int)status, (int)Json["status"]!);
        Assert.False(string.IsNullOrWhiteSpace((string?)Json["title"]));
        return this;
    }

    public ApiAnswer Is(HttpStatusCode status)
    {
        Assert.True(status == Status, $"{Status}: {Body}");
        return this;
    }
}

/// <summary>A program that talks to the bench.</summary>
public sealed class ApiClient(HttpClient client, string? device = "tablet")
{
    public Task<ApiAnswer> GetAsync(string path) => SendAsync(HttpMethod.Get, path, null);

    public Task<ApiAnswer> PostAsync(string path, string body, string kind = "application/json") =>
        SendAsync(HttpMethod.Post, path, new StringContent(body, Encoding.UTF8, new MediaTypeHeaderValue(kind)));

    public Task<ApiAnswer> PostAsync(string path, JsonNode body) => PostAsync(path, body.ToJsonString());

    public Task<ApiAnswer> PutAsync(string path, JsonNode body, string? seen) =>
        SendAsync(HttpMethod.Put, path, new StringContent(body.ToJsonString(), Encoding.UTF8, "application/json"), seen);

    public async Task<ApiAnswer> SendAsync(HttpMethod method, string path, HttpContent? content, string? seen = null)
    {
        using var request = new HttpRequestMessage(method, new Uri(path, UriKind.Relative)) { Content = content };
        if (device is not null)
        {
            request.Headers.Add("X-Shimwright-Device", device);
        }

        if (seen is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", seen);
        }

        using HttpResponseMessage answer = await client.SendAsync(request, TestContext.Current.CancellationToken);
        return new(
            answer.StatusCode, answer.Content.Headers.ContentType?.MediaType,
            await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), answer.Headers.Location, answer.Headers.ETag?.ToString());
    }
}
