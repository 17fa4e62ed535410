using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Data.Sqlite;
using Shimwright.Storage;
using Shimwright.Web.Hosting;
using Shimwright.Web.Requests;

namespace Shimwright.Web.Tests.Requests;

/// <summary>A server whose only turn is taken.</summary>
public sealed class ComputeTurnsTests : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-turns-").FullName;
    private readonly ComputeTurns _turns = new(1, TimeSpan.FromMilliseconds(20), TimeProvider.System);
    private readonly TaskCompletionSource _done = new();
    private WebApplication _app = null!;
    private HttpClient _client = null!;
    private Task _busy = Task.CompletedTask;

    public async ValueTask InitializeAsync()
    {
        var database = BenchDatabase.At(Path.Combine(_folder, "bench.db"), TimeProvider.System);
        await database.PrepareAsync();
        _app = BenchServer.Build(new(database, 0, null, TimeProvider.System, _turns));
        await _app.StartAsync();
        _client = new HttpClient { BaseAddress = new Uri(_app.Urls.First()) };
    }

    public async ValueTask DisposeAsync()
    {
        _done.TrySetResult();
        await _busy;
        _client.Dispose();
        await _app.DisposeAsync();
        SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>Eight plans at once took as much memory as eight plans.</summary>
    [Fact]
    public async Task Request_WhileAllTurnsAreTaken_IsSentAwayAndToldWhenToComeAgain()
    {
        Occupy();
        using HttpResponseMessage api = await GetAsync("/api/v1/engines");
        Assert.Equal(HttpStatusCode.ServiceUnavailable, api.StatusCode);
        Assert.Equal("application/problem+json", api.Content.Headers.ContentType?.MediaType);
        Assert.NotNull(api.Headers.RetryAfter?.Delta);
        using HttpResponseMessage page = await GetAsync("/engines");
        Assert.Equal(HttpStatusCode.ServiceUnavailable, page.StatusCode);
        Assert.NotNull(page.Headers.RetryAfter?.Delta);
        Assert.True(page.Headers.Contains("Shimwright-Busy"));
        Assert.Contains("Wait ten seconds, then send it again.", await page.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Request_ThatWorksNothingOut_NeedsNoTurn()
    {
        Occupy();
        using HttpResponseMessage health = await GetAsync("/healthz");
        Assert.Equal(HttpStatusCode.OK, health.StatusCode);
    }

    [Fact]
    public async Task Request_WhenTheTurnIsGivenBack_IsAnswered()
    {
        Occupy();
        _done.SetResult();
        await _busy;
        using HttpResponseMessage page = await GetAsync("/engines");
        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
    }

    private void Occupy()
    {
        var context = new DefaultHttpContext();
        context.Request.Method = "GET";
        context.Request.Path = "/api/v1/engines";
        context.SetEndpoint(new Endpoint(null, EndpointMetadataCollection.Empty, "busy"));
        _busy = _turns.TakeAsync(context, () => _done.Task);
    }

    private Task<HttpResponseMessage> GetAsync(string address) => _client.GetAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);
}
