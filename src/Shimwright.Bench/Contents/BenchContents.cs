using Shimwright.Bench.Drawer;

namespace Shimwright.Bench.Contents;

/// <summary>
/// What a bench holds, or a part of it that has changed, as plain rows: a store that outlives the program keeps them, and a bench is
/// filled from them again. Rows of one key replace each other, those of facts, settings, ledger and feels are only ever added.
/// Forecasts are no part of it: they follow from the rest.
/// </summary>
public sealed record BenchContents
{
    /// <summary>Engine cards.</summary>
    public IReadOnlyList<KeptCard> Cards { get; init; } = [];

    /// <summary>Engines that were removed for good: with them go their jobs and facts, and their cards where no other engine has them. No bench holds any; a change may.</summary>
    public IReadOnlyList<Guid> Removed { get; init; } = [];

    /// <summary>Engines.</summary>
    public IReadOnlyList<KeptEngine> Engines { get; init; } = [];

    /// <summary>Jobs, without their facts.</summary>
    public IReadOnlyList<KeptJob> Jobs { get; init; } = [];

    /// <summary>Facts of jobs, those of one job in order.</summary>
    public IReadOnlyList<KeptFact> Facts { get; init; } = [];

    /// <summary>What open jobs have promised of the drawer, all of a job together.</summary>
    public IReadOnlyList<KeptPromises> Promises { get; init; } = [];

    /// <summary>The drawer's ledger, in order.</summary>
    public IReadOnlyList<LedgerEntry> Ledger { get; init; } = [];

    /// <summary>The states of the settings, in order.</summary>
    public IReadOnlyList<KeptSettings> Settings { get; init; } = [];

    /// <summary>Entries of books of trials, those of one book in order.</summary>
    public IReadOnlyList<KeptFeel> Feels { get; init; } = [];

    /// <summary>How far the bench has counted.</summary>
    public IReadOnlyList<KeptCount> Counts { get; init; } = [];

    /// <summary>Pictures.</summary>
    public IReadOnlyList<KeptPicture> Pictures { get; init; } = [];

    /// <summary>The last number that a job was given.</summary>
    public int LastJob => Math.Max(Counts.Where(c => c.Name == KeptCount.Jobs).Select(c => c.Last).DefaultIfEmpty().Max(), Jobs.Select(j => j.Number).DefaultIfEmpty().Max());

    /// <summary>Whether nothing is in it that somebody has entered.</summary>
    public bool IsEmpty => Cards.Count + Engines.Count + Jobs.Count + Ledger.Count + Settings.Count + Feels.Count + Pictures.Count == 0;

    /// <summary>How many rows it has.</summary>
    public int Rows => Cards.Count + Engines.Count + Jobs.Count + Facts.Count + Promises.Sum(p => p.Promised.Count) + Ledger.Count + Settings.Count + Feels.Count + Pictures.Count;

    /// <summary>One engine with its card, its jobs and their facts: what it is carried away in before it is removed.</summary>
    /// <param name="engine">The engine.</param>
    /// <returns>A bench with this engine alone; the drawer, the trials and the settings are no part of it.</returns>
    public BenchContents Alone(Guid engine)
    {
        KeptEngine[] engines = [.. Engines.Where(e => e.Id == engine)];
        KeptJob[] jobs = [.. Jobs.Where(j => j.EngineId == engine)];
        HashSet<Guid> ids = [.. jobs.Select(j => j.Id)];
        return new()
        {
            Engines = engines,
            Cards = [.. Cards.Where(c => engines.Any(e => e.CardId == c.Id))],
            Jobs = jobs,
            Facts = [.. Facts.Where(f => ids.Contains(f.Job))],
            Pictures = [.. Pictures.Where(p => p.Job is { } job && ids.Contains(job))],
        };
    }

    /// <summary>The same with a number for every job: those from before jobs were counted are counted in the order in which they were started.</summary>
    /// <returns>The contents.</returns>
    public BenchContents Counted()
    {
        if (Jobs.All(j => j.Number > 0))
        {
            return this;
        }

        int last = LastJob;
        Dictionary<Guid, int> numbers = Jobs.Where(j => j.Number == 0).OrderBy(j => j.StartedAt).ThenBy(j => j.Id).Select(j => j.Id).Distinct().ToDictionary(id => id, _ => ++last);
        return this with { Jobs = [.. Jobs.Select(j => j.Number == 0 ? j with { Number = numbers[j.Id] } : j)] };
    }
}
