using Shimwright.Jobs.Settings;

namespace Shimwright.Bench.Settings;

/// <summary>The settings with the version that they are.</summary>
/// <param name="Version">Counts the changes; 0 where nobody has saved any yet.</param>
/// <param name="Settings">The settings.</param>
public sealed record StoredSettings(int Version, BenchSettings Settings);

/// <summary>The bench's settings; every state is kept.</summary>
public interface ISettings
{
    /// <summary>The settings that hold.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The settings.</returns>
    Task<StoredSettings> CurrentAsync(CancellationToken cancel = default);

    /// <summary>Saves settings.</summary>
    /// <param name="settings">The settings; they must have no problems.</param>
    /// <param name="seen">The version that the person had seen.</param>
    /// <param name="device">The device.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Whether they were saved; not where another device has saved in between.</returns>
    /// <exception cref="ArgumentException">The settings have problems, or the device has no name.</exception>
    Task<bool> SaveAsync(BenchSettings settings, int seen, string device, CancellationToken cancel = default);
}
