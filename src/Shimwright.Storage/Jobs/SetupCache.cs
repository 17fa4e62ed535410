using System.Collections.Concurrent;
using Shimwright.Jobs.Setups;

namespace Shimwright.Storage.Jobs;

/// <summary>Setups that were read already. A job's setup never changes, so an entry cannot be stale.</summary>
internal sealed class SetupCache
{
    private const int Most = 512;

    private readonly ConcurrentDictionary<Guid, JobSetup> _setups = new();

    public JobSetup Get(Guid job, string json)
    {
        if (_setups.TryGetValue(job, out JobSetup? known))
        {
            return known;
        }

        if (_setups.Count >= Most)
        {
            // Rare, and cheap to fill again: simpler than keeping track of use.
            _setups.Clear();
        }

        return _setups.GetOrAdd(job, _ => JobSetup.Read(json));
    }
}
