using System.Collections.Concurrent;
using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.Data.Sqlite;
using Shimwright.Storage;
using Shimwright.Web.Hosting;

[assembly: AssemblyFixture(typeof(Shimwright.Web.Tests.RunningBench.Servers))]

namespace Shimwright.Web.Tests;

/// <summary>
/// A bench of its own for a test: the real server on a free port of this machine, and a SQLite file that goes with it.
/// To start a server takes far longer than to answer, so that a server goes to another test when one is done with it;
/// its file is then a new one.
/// </summary>
public sealed class RunningBench : IAsyncDisposable
{
    private static readonly string Folder = Directory.CreateTempSubdirectory("shimwright-test-").FullName;
    private static readonly Lazy<Task<string>> PreparedFile = new(PrepareFileAsync);
    private static readonly ConcurrentBag<RunningBench> Idle = [];

    private readonly string _file;
    private readonly WebApplication _app;

    private RunningBench(string file, WebApplication app, BenchDatabase database)
    {
        _file = file;
        _app = app;
        Database = database;
        Address = new Uri(app.Urls.First());
    }

    public BenchDatabase Database { get; }

    public Uri Address { get; }

    public IServiceProvider Services => _app.Services;

    /// <summary>
    /// A browser's worth of a client: it keeps cookies and does not follow where it is sent. With script a page leaves out what pays next, which
    /// takes longer to work out than the page.
    /// </summary>
    public HttpClient NewClient(bool hasScript = true)
    {
        var cookies = new CookieContainer();
        if (hasScript)
        {
            cookies.Add(Address, new Cookie("script", "1"));
        }

        return new(new HttpClientHandler { AllowAutoRedirect = false, UseCookies = true, CookieContainer = cookies }) { BaseAddress = Address };
    }

    public static async Task<RunningBench> StartAsync()
    {
        if (Idle.TryTake(out RunningBench? idle))
        {
            return idle;
        }

        string file = Path.Combine(Folder, $"{Guid.NewGuid():N}.db");
        File.Copy(await PreparedFile.Value, file);
        var database = BenchDatabase.At(file, TimeProvider.System);
        WebApplication app = BenchServer.Build(new(database, 0, null, new TimeWithoutAlarms()));
        await app.StartAsync();
        return new(file, app, database);
    }

    public async ValueTask DisposeAsync()
    {
        SqliteConnection.ClearAllPools();
        File.Delete(_file + "-wal");
        File.Delete(_file + "-shm");
        File.Copy(await PreparedFile.Value, _file + ".new");
        File.Move(_file + ".new", _file, overwrite: true);
        Idle.Add(this);
    }

    /// <summary>Stops the servers when all tests are done.</summary>
    public sealed class Servers : IAsyncDisposable
    {
        public async ValueTask DisposeAsync()
        {
            foreach (RunningBench idle in Idle)
            {
                await idle._app.DisposeAsync();
            }

            SqliteConnection.ClearAllPools();
            Directory.Delete(Folder, recursive: true);
        }
    }

    /// <summary>A file with its tables.</summary>
    private static async Task<string> PrepareFileAsync()
    {
        string file = Path.Combine(Folder, "prepared.db");
        await BenchDatabase.At(file, TimeProvider.System).PrepareAsync();
        // The last connection to close takes the write-ahead log into the file.
        SqliteConnection.ClearAllPools();
        return file;
    }

    /// <summary>The clock of this machine; nothing that waits for it wakes up, so that what a server does by itself does not meet another test's file.</summary>
    private sealed class TimeWithoutAlarms : TimeProvider
    {
        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
            base.CreateTimer(callback, state, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }
}
