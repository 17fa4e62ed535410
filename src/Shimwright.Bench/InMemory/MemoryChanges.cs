using Shimwright.Bench.Contents;

namespace Shimwright.Bench.InMemory;

/// <summary>What changed last when, counted change by change, for those who keep in step with the bench.</summary>
internal sealed class MemoryChanges
{
    private readonly Dictionary<(MemoryKind Kind, Guid Id), long> _last = [];

    /// <summary>Which bench it is: one that was filled anew is another one.</summary>
    public string Bench { get; } = Guid.NewGuid().ToString("N");

    public long Last { get; private set; }

    public void Note(BenchContents rows)
    {
        // An engine that is gone takes its jobs with it, and so do those who follow.
        NoteAll(MemoryKind.Engine, rows.Removed);
        NoteAll(MemoryKind.Engine, rows.Engines.Select(e => e.Id));
        NoteAll(MemoryKind.Card, rows.Cards.Select(c => c.Id));
        NoteAll(MemoryKind.Job, rows.Jobs.Select(j => j.Id));
        NoteAll(MemoryKind.Feel, rows.Feels.Select(f => f.Person).Distinct());
        NoteAll(MemoryKind.Picture, rows.Pictures.Select(p => p.Id));
        NoteAll(MemoryKind.Drawer, rows.Ledger.Take(1).Select(_ => Guid.Empty));
        NoteAll(MemoryKind.Settings, rows.Settings.Take(1).Select(_ => Guid.Empty));
    }

    /// <summary>What changed after a change, in the order of its last one.</summary>
    public IReadOnlyList<(MemoryKind Kind, Guid Id, long At)> Since(long last, int most) =>
        [.. _last.Where(c => c.Value > last).OrderBy(c => c.Value).Take(most).Select(c => (c.Key.Kind, c.Key.Id, c.Value))];

    private void NoteAll(MemoryKind kind, IEnumerable<Guid> ids)
    {
        foreach (Guid id in ids)
        {
            _last[(kind, id)] = ++Last;
        }
    }
}

/// <summary>What a change is of.</summary>
internal enum MemoryKind
{
    Engine,
    Card,
    Job,
    Feel,
    Picture,
    Drawer,
    Settings,
}
