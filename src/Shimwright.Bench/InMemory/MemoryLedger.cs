using Shimwright.Bench.Adding;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Drawer;

namespace Shimwright.Bench.InMemory;

/// <summary>The drawer's ledger as it is held, added up, and what open jobs have promised.</summary>
internal sealed class MemoryLedger
{
    private readonly List<LedgerEntry> _entries = [];
    private readonly Dictionary<ShimSize, int> _counts = [];
    private readonly HashSet<Guid> _actions = [];
    private readonly HashSet<int> _undone = [];
    private readonly Dictionary<Guid, KeptPromises> _promises = [];

    public IReadOnlyList<LedgerEntry> Entries => _entries;

    public IReadOnlyCollection<KeptPromises> Promises => _promises.Values;

    /// <summary>The number of the last entry.</summary>
    public int Last => _entries.Count;

    public bool Knows(Guid action) => _actions.Contains(action);

    public bool IsUndone(int number) => _undone.Contains(number);

    public LedgerEntry? Find(int number) => number >= 1 && number <= _entries.Count ? _entries[number - 1] : null;

    /// <summary>The promises of a job; none where it has promised nothing.</summary>
    public IReadOnlyDictionary<ShimSize, PromisedCount> PromisesOf(Guid job) =>
        _promises.TryGetValue(job, out KeptPromises? kept) ? kept.Promised : new Dictionary<ShimSize, PromisedCount>();

    /// <summary>What the ledger adds up to.</summary>
    /// <param name="except">A job whose own promises do not count, or null.</param>
    public DrawerCounts Counts(Guid? except = null)
    {
        Dictionary<ShimSize, PromisedCount> promised = [];
        foreach ((ShimSize size, PromisedCount promise) in _promises.Values.Where(p => p.Job != except).SelectMany(p => p.Promised))
        {
            PromisedCount before = promised.GetValueOrDefault(size);
            promised[size] = new(before.Count + promise.Count, before.Fitted + promise.Fitted);
        }

        return new(new Dictionary<ShimSize, int>(_counts), promised);
    }

    /// <summary>The drawer as one job sees it; null where the job has nothing to do with it.</summary>
    /// <param name="job">The job.</param>
    /// <param name="ofCard">The diameter that its card says now, or null.</param>
    public JobDrawer? For(Guid job, int? ofCard)
    {
        IReadOnlyDictionary<ShimSize, PromisedCount> own = PromisesOf(job);
        LedgerEntry[] moves = [.. _entries.Where(e => e.Job == job)];
        // What was promised or moved for the job keeps its diameter, whatever became of the card since.
        int? known = own.Count > 0 ? own.Keys.First().Diameter : moves.Length > 0 ? moves[^1].Size.Diameter : ofCard;
        return known is { } diameter
            ? new(diameter, Counts(job), own,
                moves.GroupBy(e => e.Size).Select(g => (g.Key, Change: g.Sum(e => e.Change))).Where(m => m.Change != 0).ToDictionary(m => m.Key, m => m.Change))
            : null;
    }

    public void Add(IEnumerable<LedgerEntry> entries)
    {
        foreach (LedgerEntry entry in entries)
        {
            if (entry.Number != Last + 1)
            {
                throw new ArgumentException($"After entry {Last} of the ledger comes {entry.Number}.", nameof(entries));
            }

            _entries.Add(entry);
            _counts[entry.Size] = _counts.GetValueOrDefault(entry.Size) + entry.Change;
            _actions.Add(entry.Action);
            if (entry.Undoes is { } undone)
            {
                _undone.Add(undone);
            }
        }
    }

    /// <summary>Puts entries in the place of those of their numbers, and takes away those that are named.</summary>
    public void Replace(IReadOnlyList<LedgerEntry> entries, IReadOnlyCollection<int> gone)
    {
        if (entries.Count + gone.Count == 0)
        {
            return;
        }

        SortedDictionary<int, LedgerEntry> all = new(_entries.ToDictionary(e => e.Number));
        foreach (int number in gone)
        {
            all.Remove(number);
        }

        foreach (LedgerEntry entry in entries)
        {
            all[entry.Number] = entry;
        }

        _entries.Clear();
        _counts.Clear();
        _actions.Clear();
        _undone.Clear();
        Add(all.Values);
    }

    /// <summary>Leaves what jobs did in the ledger, without the jobs; what they had promised is free again.</summary>
    public void Forget(IReadOnlySet<Guid> jobs)
    {
        for (int i = 0; i < _entries.Count; i++)
        {
            if (_entries[i].Job is { } job && jobs.Contains(job))
            {
                _entries[i] = _entries[i] with { Job = null };
            }
        }

        foreach (Guid job in jobs)
        {
            _promises.Remove(job);
        }
    }

    public void Promise(IEnumerable<KeptPromises> promises)
    {
        foreach (KeptPromises kept in promises)
        {
            if (kept.Promised.Count == 0)
            {
                _promises.Remove(kept.Job);
            }
            else
            {
                _promises[kept.Job] = kept;
            }
        }
    }
}
