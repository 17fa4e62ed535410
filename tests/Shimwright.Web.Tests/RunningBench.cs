using Microsoft.AspNetCore.Builder;
using Shimwright.Storage;
using Shimwright.Web.Shell;

namespace Shimwright.Web.Tests;

/// <summary>A bench of its own for a test: the real server on a free port of this machine, and a SQLite file that goes with it.</summary>
public sealed class RunningBench : IAsyncDisposable
{
    private readonly string _folder;
    private readonly WebApplication _app;

    private RunningBench(string folder, WebApplication app, BenchDatabase database)
    {
        _folder = folder;
        _app = app;
        Database = database;
        Address = new Uri(app.Urls.First());
    }

    public BenchDatabase Database { get; }

    public Uri Address { get; }

    public IServiceProvider Services => _app.Services;

    /// <summary>A browser's worth of a client: it keeps cookies and does not follow where it is sent.</summary>
    public HttpClient NewClient() =>
        new(new HttpClientHandler { AllowAutoRedirect = false, UseCookies = true }) { BaseAddress = Address };

    public static async Task<RunningBench> StartAsync()
    {
        string folder = Directory.CreateTempSubdirectory("shimwright-test-").FullName;
        var database = BenchDatabase.At(Path.Combine(folder, "bench.db"), TimeProvider.System);
        await database.PrepareAsync();
        WebApplication app = BenchServer.Build(new(database, 0, null, TimeProvider.System));
        await app.StartAsync();
        return new(folder, app, database);
    }

    public async ValueTask DisposeAsync()
    {
        await _app.StopAsync();
        await _app.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }
}
