using System.Net;
using System.Net.Sockets;
using Microsoft.AspNetCore.Builder;
using Microsoft.Data.Sqlite;
using Shimwright.Storage;
using Shimwright.Testing;
using Shimwright.Web.Hosting;

namespace Shimwright.Web.Tests.Hosting;

/// <summary>Whether the bench can work just now, for whoever sends people to it.</summary>
public sealed class ReadyTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-ready-").FullName;

    private string File => Path.Combine(_folder, "bench.db");

    [Fact]
    public async Task Readyz_FileThatIsTakenAwayAndPutBack_SaysSoAndIsReadyAgain()
    {
        var database = BenchDatabase.At(File, TimeProvider.System);
        await database.PrepareAsync(TestContext.Current.CancellationToken);
        await using WebApplication app = await StartAsync(database);
        Assert.Equal((HttpStatusCode.OK, "ready"), await AskAsync(app));
        (HttpStatusCode Status, string Words) answer = default;
        for (int left = 50; left > 0 && answer.Status != HttpStatusCode.ServiceUnavailable; left--)
        {
            // A connection that worked in the background just then still has the file.
            SqliteConnection.ClearAllPools();
            if (System.IO.File.Exists(File))
            {
                System.IO.File.Move(File, File + ".away");
            }

            await Task.Delay(100, TestContext.Current.CancellationToken);
            answer = await AskAsync(app);
        }

        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.Status);
        Assert.StartsWith("not ready: the database takes nothing: ", answer.Words, StringComparison.Ordinal);
        SqliteConnection.ClearAllPools();
        System.IO.File.Move(File + ".away", File, overwrite: true);
        Assert.Equal((HttpStatusCode.OK, "ready"), await AskAsync(app));
        await app.StopAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Readyz_ServerThatIsAway_SaysSo()
    {
        await using WebApplication app = await StartAsync(BenchDatabase.At($"Host=127.0.0.1;Port={ClosedPort()};Username=bench", TimeProvider.System));
        (HttpStatusCode status, string words) = await AskAsync(app);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, status);
        Assert.StartsWith("not ready: the database ", words, StringComparison.Ordinal);
        await app.StopAsync(TestContext.Current.CancellationToken);
    }

    /// <summary>A server that takes the connection and says nothing is given up by whoever asks sooner than by the database's own patience.</summary>
    [Fact]
    [Long]
    public async Task Readyz_ServerThatSaysNothing_AnswersSoonAllTheSame()
    {
        using var silent = new TcpListener(IPAddress.Loopback, 0);
        silent.Start();
        await using WebApplication app = await StartAsync(BenchDatabase.At($"Host=127.0.0.1;Port={PortOf(silent)};Username=bench;Timeout=9", TimeProvider.System));
        long start = TimeProvider.System.GetTimestamp();
        Assert.Equal((HttpStatusCode.ServiceUnavailable, "not ready: the database does not answer"), await AskAsync(app));
        Assert.InRange(TimeProvider.System.GetElapsedTime(start), TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(8));
        await app.StopAsync(TestContext.Current.CancellationToken);
    }

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    private static async Task<WebApplication> StartAsync(BenchDatabase database)
    {
        WebApplication app = BenchServer.Build(new(database, 0, null, TimeProvider.System));
        await app.StartAsync(TestContext.Current.CancellationToken);
        return app;
    }

    private static async Task<(HttpStatusCode Status, string Words)> AskAsync(WebApplication app)
    {
        using var client = new HttpClient { BaseAddress = new Uri(app.Urls.First()) };
        using HttpResponseMessage answer = await client.GetAsync(new Uri("/readyz", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal("text/plain", answer.Content.Headers.ContentType!.MediaType);
        return (answer.StatusCode, await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    private static int ClosedPort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return PortOf(listener);
    }

    private static int PortOf(TcpListener listener) => ((IPEndPoint)listener.LocalEndpoint).Port;
}
