using Shimwright.Bench.Contents;
using Shimwright.Bench.Due;
using Shimwright.Jobs.Settings;

namespace Shimwright.Bench.InMemory;

/// <summary>
/// What a bench in memory holds: rows, and what was read out of them. Every change is a set of rows that is kept first and then
/// laid over what is here, just as the bench was filled.
/// </summary>
internal sealed partial class MemoryState
{
    private readonly Lock _gate = new();
    private readonly Action<BenchContents>? _keep;
    private readonly Func<Task>? _kept;
    private readonly TimeProvider _time;

    private readonly AsyncLocal<DateTime?> _then = new();

    public MemoryState(TimeProvider time, BenchContents contents, Action<BenchContents>? keep, Func<Task>? kept)
    {
        _time = time;
        Lay(contents.Counted());
        _keep = keep;
        _kept = kept;
    }

    public Dictionary<Guid, MemoryCard> Cards { get; } = [];

    public Dictionary<Guid, MemoryEngine> Engines { get; } = [];

    public Dictionary<Guid, MemoryJob> Jobs { get; } = [];

    /// <summary>From the action that started a job to the job.</summary>
    public Dictionary<Guid, MemoryJob> JobsByAction { get; } = [];

    public MemoryLedger Ledger { get; } = new();

    public List<KeptSettings> SettingsRows { get; } = [];

    /// <summary>The settings that hold.</summary>
    public BenchSettings Settings { get; private set; } = new();

    /// <summary>Tells the settings that forecasts rest on from others.</summary>
    public string SettingsMark { get; private set; } = Forecaster.MarkOf(new());

    public SortedDictionary<Guid, List<KeptFeel>> Feels { get; } = [];

    public Dictionary<Guid, KeptPicture> Pictures { get; } = [];

    /// <summary>The last number that a job was given.</summary>
    public int LastJob { get; private set; }

    /// <summary>What changed in which order, for those who keep in step.</summary>
    public MemoryChanges Changes { get; } = new();

    /// <summary>By how much a version goes up with each change.</summary>
    public int Leap { get; set; } = 1;

    public DateTime Now => _then.Value ?? _time.GetUtcNow().UtcDateTime;

    public Guid NewId() => Guid.CreateVersion7(_time.GetUtcNow());

    /// <summary>Does one thing while nobody does another.</summary>
    public T Do<T>(Func<T> work)
    {
        lock (_gate)
        {
            return work();
        }
    }

    /// <summary>The same for a caller that awaits the answer; what is thrown stands in the task, as it does on any bench.</summary>
    public Task<T> DoAsync<T>(Func<T> work, CancellationToken cancel)
    {
        if (cancel.IsCancellationRequested)
        {
            return Task.FromCanceled<T>(cancel);
        }

        try
        {
            T answer = Do(work);
            return _kept?.Invoke() is { IsCompletedSuccessfully: false } kept ? AfterAsync(kept, answer) : Task.FromResult(answer);
        }
        catch (Exception e)
        {
            return Task.FromException<T>(e);
        }
    }

    /// <summary>Works as if it were another time. What is set here is seen by the work alone.</summary>
    public async Task<T> AtAsync<T>(DateTime time, Func<Task<T>> work)
    {
        _then.Value = time;
        return await work();
    }

    private static async Task<T> AfterAsync<T>(Task kept, T answer)
    {
        await kept;
        return answer;
    }

    /// <summary>Keeps rows, and lays them over what is here.</summary>
    public void Change(BenchContents rows)
    {
        _keep?.Invoke(rows);
        Lay(rows);
    }

    public BenchContents Contents() => new()
    {
        Cards = [.. Cards.Values.Select(c => c.Row)],
        Engines = [.. Engines.Values.Select(e => e.Row)],
        Jobs = [.. Jobs.Values.Select(j => j.Row)],
        Facts = [.. Jobs.Values.SelectMany(j => j.Facts)],
        Promises = [.. Ledger.Promises],
        Ledger = [.. Ledger.Entries],
        Settings = [.. SettingsRows],
        Feels = [.. Feels.Values.SelectMany(f => f)],
        Counts = LastJob == 0 ? [] : [new(KeptCount.Jobs, LastJob)],
        Pictures = [.. Pictures.Values],
    };

    /// <summary>Lays rows over what is here.</summary>
    public void Lay(BenchContents rows)
    {
        Changes.Note(rows);
        foreach (Guid removed in rows.Removed)
        {
            TakeAway(removed);
        }

        foreach (KeptCard row in rows.Cards)
        {
            if (Cards.TryGetValue(row.Id, out MemoryCard? card))
            {
                card.Row = row;
            }
            else
            {
                Cards.Add(row.Id, new(row));
            }
        }

        foreach (KeptEngine row in rows.Engines)
        {
            Must(Cards.ContainsKey(row.CardId), $"There is no card {row.CardId}.");
            if (Engines.TryGetValue(row.Id, out MemoryEngine? engine))
            {
                engine.Row = row;
            }
            else
            {
                Engines.Add(row.Id, new(row));
            }
        }

        LayJobs(rows);
        LastJob = Math.Max(LastJob, rows.LastJob);
        LayPictures(rows);
        Ledger.Add(rows.Ledger);
        Ledger.Promise(rows.Promises);
        foreach (KeptFeel row in rows.Feels)
        {
            (Feels.TryGetValue(row.Person, out List<KeptFeel>? book) ? book : Feels[row.Person] = []).Add(row);
        }

        if (rows.Settings.Count > 0)
        {
            SettingsRows.AddRange(rows.Settings);
            Settings = BenchSettings.Read(SettingsRows[^1].Settings);
            SettingsMark = Forecaster.MarkOf(Settings);
        }
    }

    private void TakeAway(Guid id)
    {
        if (!Engines.Remove(id, out MemoryEngine? engine))
        {
            return;
        }

        if (Engines.Values.All(e => e.Row.CardId != engine.Row.CardId))
        {
            Cards.Remove(engine.Row.CardId);
        }

        HashSet<Guid> jobs = [.. Jobs.Values.Where(j => j.Row.EngineId == id).Select(j => j.Row.Id)];
        foreach (Guid job in jobs)
        {
            JobsByAction.Remove(Jobs[job].Row.Action);
            Jobs.Remove(job);
        }

        foreach (Guid picture in Pictures.Values.Where(p => p.Job is { } job && jobs.Contains(job)).Select(p => p.Id).ToArray())
        {
            Pictures.Remove(picture);
        }

        Ledger.Forget(jobs);
    }

    private void LayJobs(BenchContents rows)
    {
        foreach (KeptJob row in rows.Jobs)
        {
            Must(Engines.ContainsKey(row.EngineId), $"There is no engine {row.EngineId}.");
            if (Jobs.TryGetValue(row.Id, out MemoryJob? job))
            {
                job.Row = row;
            }
            else
            {
                job = new(row);
                Jobs.Add(row.Id, job);
                JobsByAction.Add(row.Action, job);
            }
        }

        foreach (IGrouping<Guid, KeptFact> facts in rows.Facts.GroupBy(f => f.Job))
        {
            Must(Jobs.ContainsKey(facts.Key), $"There is no job {facts.Key}.");
            Jobs[facts.Key].Add(facts);
        }
    }

    private void LayPictures(BenchContents rows)
    {
        foreach (KeptPicture row in rows.Pictures)
        {
            Must(row.Job is not { } job || Jobs.ContainsKey(job), $"There is no job {row.Job}.");
            Pictures[row.Id] = row;
        }
    }

    private static void Must(bool holds, string wrong)
    {
        if (!holds)
        {
            throw new ArgumentException(wrong);
        }
    }
}
