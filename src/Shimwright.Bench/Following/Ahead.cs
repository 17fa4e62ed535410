using Shimwright.Bench.Contents;

namespace Shimwright.Bench.Following;

/// <summary>Where a bench is ahead of the one that it follows: every row that it has changed as the other one has it, and how far the other one has counted.</summary>
internal sealed class Ahead
{
    private readonly Dictionary<string, string?> _rows = [];
    private readonly Dictionary<Guid, int> _lastOfJob = [];
    private int? _lastEntry;

    /// <summary>The rows by key, as the followed bench has them; null where it has none.</summary>
    public IReadOnlyDictionary<string, string?> Rows => _rows;

    /// <summary>The jobs to which something was added.</summary>
    public IReadOnlyCollection<Guid> Jobs => _lastOfJob.Keys;

    /// <summary>The number of a job's last entry on the followed bench, where this one has added to it.</summary>
    public int? LastOf(Guid job) => _lastOfJob.TryGetValue(job, out int last) ? last : null;

    /// <summary>The number of the drawer's last entry on the followed bench, where this one has added to it.</summary>
    public int? LastEntry => _lastEntry;

    public void Clear()
    {
        _rows.Clear();
        _lastOfJob.Clear();
        _lastEntry = null;
    }

    /// <summary>Reads what was kept.</summary>
    public void Read(string key, string line) => Note(key, line.Length == 0 ? null : line);

    /// <summary>Notes a change before it is made.</summary>
    /// <param name="lines">The change.</param>
    /// <param name="change">The same as rows.</param>
    /// <param name="before">What is there before; asked only where a row is replaced or removed for the first time.</param>
    /// <returns>The lines that keep what was noted.</returns>
    public IReadOnlyList<KeptLine> Note(IReadOnlyList<KeptLine> lines, BenchContents change, Func<BenchContents> before)
    {
        string[] fresh = [.. lines.Select(l => l.Key).Where(k => !_rows.ContainsKey(k) && !KeptLines.IsRemoval(k))];
        bool replaces = change.Removed.Count > 0 || fresh.Any(k => !KeptLines.IsAddedOnly(k));
        Dictionary<string, string?> old = replaces ? Known(change, before()) : [];
        foreach (string key in fresh)
        {
            Note(key, old.GetValueOrDefault(key));
        }

        return [.. fresh.Select(k => FollowLines.OfBase(k, _rows[k]))];
    }

    private void Note(string key, string? line)
    {
        if (!_rows.TryAdd(key, line) || line is not null)
        {
            return;
        }

        RowKeys added = KeptLines.Rows([key]);
        foreach ((Guid job, int number) in added.Facts)
        {
            _lastOfJob[job] = Math.Min(number - 1, _lastOfJob.GetValueOrDefault(job, int.MaxValue));
        }

        foreach (int number in added.Ledger)
        {
            _lastEntry = Math.Min(number - 1, _lastEntry ?? int.MaxValue);
        }
    }

    private static Dictionary<string, string?> Known(BenchContents change, BenchContents before)
    {
        BenchContents touched = change.Removed.Count > 0 ? before : new()
        {
            Cards = [.. before.Cards.Where(c => change.Cards.Any(r => r.Id == c.Id))],
            Engines = [.. before.Engines.Where(c => change.Engines.Any(r => r.Id == c.Id))],
            Jobs = [.. before.Jobs.Where(c => change.Jobs.Any(r => r.Id == c.Id))],
            Promises = [.. before.Promises.Where(c => change.Promises.Any(r => r.Job == c.Job))],
            Counts = before.Counts,
        };
        return KeptLines.Of(touched with { Pictures = [] }, () => new()).ToDictionary(l => l.Key, l => l.Line);
    }
}
