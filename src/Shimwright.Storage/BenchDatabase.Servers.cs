using Microsoft.AspNetCore.DataProtection;
using Microsoft.Extensions.DependencyInjection;
using Shimwright.Storage.Database;
using Shimwright.Storage.Due;

namespace Shimwright.Storage;

/// <content>What several servers on one database share.</content>
public sealed partial class BenchDatabase
{
    /// <summary>Whether an address is that of a server.</summary>
    /// <param name="address">The address.</param>
    /// <returns>Whether it is.</returns>
    public static bool IsServer(string address)
    {
        ArgumentNullException.ThrowIfNull(address);
        return address.Split(';').Any(part => part.Split('=', 2) is [var key, _] && key.Trim().ToUpperInvariant() is "HOST" or "SERVER");
    }

    /// <summary>Takes the turn to bring forecasts up to date, which one of several servers does for all.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The turn, given back when it is disposed of; null where another server has it.</returns>
    public async Task<IAsyncDisposable?> TakeForecastsAsync(CancellationToken cancel = default)
    {
        IAsyncDisposable? turn = await Turn.TakeAsync(_open, Turn.Forecasts, cancel);
        if (turn is null)
        {
            // Pages here need not work out many while they are waited for, either.
            ((DueStore)Due).KeptElsewhere();
        }

        return turn;
    }

    /// <summary>Keeps the keys of forms in the database, where all servers of the bench find them.</summary>
    /// <param name="keys">What protects forms.</param>
    public void KeepFormKeys(IDataProtectionBuilder keys)
    {
        ArgumentNullException.ThrowIfNull(keys);
        keys.Services.AddScoped(_ => _open());
        keys.PersistKeysToDbContext<BenchContext>();
    }
}
