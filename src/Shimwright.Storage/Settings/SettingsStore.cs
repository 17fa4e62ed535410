using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Settings;
using Shimwright.Jobs.Settings;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Settings;

/// <summary>The bench's settings; every state is kept.</summary>
internal sealed class SettingsStore : ISettings
{
    private readonly Func<BenchContext> _open;
    private readonly TimeProvider _time;

    internal SettingsStore(Func<BenchContext> open, TimeProvider time)
    {
        _open = open;
        _time = time;
    }

    /// <inheritdoc/>
    public async Task<StoredSettings> CurrentAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        SettingsRow? row = await context.Settings.AsNoTracking().OrderByDescending(s => s.Version).FirstOrDefaultAsync(cancel);
        return row is null ? new(0, new BenchSettings()) : new(row.Version, BenchSettings.Read(row.Settings));
    }

    /// <inheritdoc/>
    public async Task<bool> SaveAsync(BenchSettings settings, int seen, string device, CancellationToken cancel = default)
    {
        SettingsRules.Check(settings, device);
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
