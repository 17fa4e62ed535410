using Shimwright.Bench.Contents;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.InStep;

namespace Shimwright.Bench.InMemory;

/// <summary>Those who keep in step with a bench in memory.</summary>
internal sealed class MemorySteps(MemoryState state)
{
    private readonly Dictionary<Guid, HeardDeed> _heard = [];

    public string Name => state.Changes.Bench;

    public StepPart Since(StepMark mark, int most)
    {
        if (mark.Bench != state.Changes.Bench || mark.Last > state.Changes.Last)
        {
            mark = StepMark.None with { Bench = state.Changes.Bench };
        }

        IReadOnlyList<(MemoryKind Kind, Guid Id, long At)> changed = state.Changes.Since(mark.Last, most + 1);
        IReadOnlyList<(MemoryKind Kind, Guid Id, long At)> part = [.. changed.Take(most)];
        LedgerEntry[] ledger = [.. state.Ledger.Entries.Skip(mark.Ledger).Take(most * StepPart.EntriesEach)];
        KeptSettings[] settings = [.. state.SettingsRows.Where(s => s.Version > mark.Settings)];
        BenchContents rows = Rows(part) with { Ledger = ledger, Settings = settings };
        StepMark next = new(state.Changes.Bench, part.Count == 0 ? mark.Last : part[^1].At, mark.Ledger + ledger.Length, settings.Length == 0 ? mark.Settings : settings[^1].Version);
        return new(next, rows, changed.Count > most || next.Ledger < state.Ledger.Last);
    }

    public DeedAnswer? Answered(Guid deed) => _heard.GetValueOrDefault(deed)?.Answer;

    public bool Hear(HeardDeed heard) => _heard.TryAdd(heard.Deed, heard);

    public IReadOnlySet<Guid> SentBy(Guid pocket, IReadOnlyCollection<Guid> actions) => actions.Where(a => _heard.GetValueOrDefault(a)?.Pocket == pocket).ToHashSet();

    private BenchContents Rows(IReadOnlyList<(MemoryKind Kind, Guid Id, long At)> part)
    {
        ILookup<MemoryKind, Guid> ids = part.ToLookup(c => c.Kind, c => c.Id);
        MemoryJob[] jobs = [.. ids[MemoryKind.Job].Select(state.Jobs.GetValueOrDefault).OfType<MemoryJob>()];
        // A job is of no use before its engine, which may have changed again since.
        KeptEngine[] engines = [.. ids[MemoryKind.Engine].Concat(jobs.Select(j => j.Row.EngineId)).Distinct().Select(e => state.Engines.GetValueOrDefault(e)?.Row).OfType<KeptEngine>()];
        return new()
        {
            Removed = [.. ids[MemoryKind.Engine].Where(e => !state.Engines.ContainsKey(e))],
            Engines = engines,
            Cards = [.. ids[MemoryKind.Card].Concat(engines.Select(e => e.CardId)).Distinct().Select(c => state.Cards.GetValueOrDefault(c)?.Row).OfType<KeptCard>()],
            Jobs = [.. jobs.Select(j => j.Row)],
            Facts = [.. jobs.SelectMany(j => j.Facts)],
            Promises = [.. jobs.Select(j => new KeptPromises(j.Row.Id, state.Ledger.PromisesOf(j.Row.Id)))],
            Feels = [.. ids[MemoryKind.Feel].Where(state.Feels.ContainsKey).SelectMany(f => state.Feels[f])],
            Counts = jobs.Length == 0 ? [] : [new(KeptCount.Jobs, state.LastJob)],
            Pictures = [.. ids[MemoryKind.Picture].Select(state.Pictures.GetValueOrDefault).OfType<KeptPicture>().Select(p => p with { Content = [], Thumb = [] })],
        };
    }
}
