using System.Collections.Concurrent;
using Shimwright.Bench.Due;

namespace Shimwright.Storage.Due;

/// <summary>Outlooks that were worked out already. Each is known by what it rests on, and that is asked for every time, so that none can be stale.</summary>
internal sealed class OutlookCache
{
    private const int Most = 512;

    private readonly ConcurrentDictionary<Guid, (ForecastBasis Basis, StoredOutlook? Outlook)> _outlooks = new();

    public async Task<StoredOutlook?> GetAsync(Guid engine, ForecastBasis basis, Func<Task<StoredOutlook?>> work)
    {
        if (_outlooks.TryGetValue(engine, out (ForecastBasis Basis, StoredOutlook? Outlook) known) && known.Basis == basis)
        {
            return known.Outlook;
        }

        StoredOutlook? outlook = await work();
        if (_outlooks.Count >= Most)
        {
            // Rare, and filled again as engines are looked at.
            _outlooks.Clear();
        }

        _outlooks[engine] = (basis, outlook);
        return outlook;
    }
}
