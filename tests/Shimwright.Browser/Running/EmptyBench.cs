using Shimwright.Testing.Served;

namespace Shimwright.Browser.Running;

/// <summary>A served bench on which nothing was ever done.</summary>
public sealed class EmptyBench : IAsyncLifetime
{
    private ServedBench? _bench;

    internal Uri Address => _bench!.Address;

    /// <summary>A folder that goes with it.</summary>
    internal string Folder { get; } = Directory.CreateTempSubdirectory("shimwright-browser-").FullName;

    public async ValueTask InitializeAsync() => _bench = await ServedBench.StartAsync(Path.Combine(Folder, "bench.db"), Folder);

    public async ValueTask DisposeAsync()
    {
        if (_bench is not null)
        {
            await _bench.DisposeAsync();
        }

        Directory.Delete(Folder, recursive: true);
    }
}
