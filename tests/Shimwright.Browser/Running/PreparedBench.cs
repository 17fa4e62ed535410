using Shimwright.Storage;
using Shimwright.Testing.Served;
using Shimwright.Testing.Workshop;

namespace Shimwright.Browser.Running;

/// <summary>A served bench on which there is something to see in every room.</summary>
public sealed class PreparedBench : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-browser-").FullName;
    private ServedBench? _bench;

    internal Uri Address => _bench!.Address;

    /// <summary>What is on it.</summary>
    internal FullWorkshop Workshop { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        string file = Path.Combine(_folder, "bench.db");
        var database = BenchDatabase.At(file, TimeProvider.System);
        await database.PrepareAsync();
        Workshop = new FullWorkshop(database, () => Guid.CreateVersion7(TimeProvider.System.GetUtcNow()), name => File.ReadAllBytes(Repository.Demo(name)));
        await Workshop.FillAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        _bench = await ServedBench.StartAsync(file, _folder);
    }

    /// <summary>The whole bench as a file.</summary>
    internal async Task<string> ArchiveAsync(string folder)
    {
        string file = Path.Combine(folder, $"bench-{Guid.NewGuid():N}.zip");
        using HttpClient client = new() { BaseAddress = Address };
        await File.WriteAllBytesAsync(file, await client.GetByteArrayAsync(new Uri("/settings/copies/bench.zip", UriKind.Relative)));
        return file;
    }

    public async ValueTask DisposeAsync()
    {
        if (_bench is not null)
        {
            await _bench.DisposeAsync();
        }

        Directory.Delete(_folder, recursive: true);
    }
}
