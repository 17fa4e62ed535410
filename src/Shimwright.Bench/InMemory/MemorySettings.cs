using Shimwright.Bench.Settings;
using Shimwright.Jobs.Settings;

namespace Shimwright.Bench.InMemory;

/// <summary>The settings of a bench in memory.</summary>
internal sealed class MemorySettings(MemoryState state) : ISettings
{
    /// <inheritdoc/>
    public Task<StoredSettings> CurrentAsync(CancellationToken cancel = default) =>
        state.DoAsync(() => new StoredSettings(Version, state.Settings), cancel);

    /// <inheritdoc/>
    public Task<bool> SaveAsync(BenchSettings settings, int seen, string device, CancellationToken cancel = default) => state.DoAsync(
        () =>
        {
            SettingsRules.Check(settings, device);
            if (Version != seen)
            {
                return false;
            }

            state.Change(new() { Settings = [new(seen + state.Leap, device, state.Now, settings.ToJson())] });
            return true;
        },
        cancel);

    private int Version => state.SettingsRows.Count == 0 ? 0 : state.SettingsRows[^1].Version;
}
