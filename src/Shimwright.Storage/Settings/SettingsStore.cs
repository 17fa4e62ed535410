using Microsoft.EntityFrameworkCore;
using Shimwright.Jobs.Settings;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Settings;

/// <summary>The settings with the version that they are.</summary>
/// <param name="Version">Counts the changes; 0 where nobody has saved any yet.</param>
/// <param name="Settings">The settings.</param>
public sealed record StoredSettings(int Version, BenchSettings Settings);

/// <summary>The bench's settings; every state is kept.</summary>
public sealed class SettingsStore
{
    private readonly Func<BenchContext> _open;
    private readonly TimeProvider _time;

    internal SettingsStore(Func<BenchContext> open, TimeProvider time)
    {
        _open = open;
        _time = time;
    }

    /// <summary>The settings that hold.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The settings.</returns>
    public async Task<StoredSettings> CurrentAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        SettingsRow? row = await context.Settings.AsNoTracking().OrderByDescending(s => s.Version).FirstOrDefaultAsync(cancel);
        return row is null ? new(0, new BenchSettings()) : new(row.Version, BenchSettings.Read(row.Settings));
    }

    /// <summary>Saves settings.</summary>
    /// <param name="settings">The settings; they must have no problems.</param>
    /// <param name="seen">The version that the person had seen.</param>
    /// <param name="device">The device.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Whether they were saved; not where another device has saved in between.</returns>
    public async Task<bool> SaveAsync(BenchSettings settings, int seen, string device, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(settings);
        if (settings.Problems().Count > 0 || !PlainText.CanNameADevice(device))
        {
            throw new ArgumentException("Settings are checked, and the device has a name, before they are saved.", nameof(settings));
        }

        if ((await CurrentAsync(cancel)).Version != seen)
        {
            return false;
        }

        await using BenchContext context = _open();
        context.Settings.Add(new SettingsRow { Version = seen + 1, Device = device, At = _time.GetUtcNow().UtcDateTime, Settings = settings.ToJson() });
        try
        {
            await context.SaveChangesAsync(cancel);
            return true;
        }
        catch (DbUpdateException)
        {
            // The number was taken in between.
            if ((await CurrentAsync(cancel)).Version != seen)
            {
                return false;
            }

            throw;
        }
    }
}
