using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Starting;
using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Sheets;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Following;

/// <summary>A tap that a bench has acknowledged.</summary>
/// <param name="By">Who tapped: 0 at the bench, 1 and 2 on a phone.</param>
/// <param name="Action">The action.</param>
/// <param name="At">When, by the right clock.</param>
/// <param name="Facts">How many facts it added to a job; 0 where it was none of a job.</param>
internal sealed record Tap(int By, Guid Action, DateTime At, int Facts);

/// <summary>Taps on jobs that are shared and on those that are not, on the drawer, cards, books and settings, drawn by chance.</summary>
internal sealed class RandomTaps(int seed, TimeProvider time)
{
    private static readonly string[] Valves = ["I1", "I2", "E1", "E2"];

    private readonly Random _random = new(seed);

    public List<Tap> Taps { get; } = [];

    /// <summary>Taps once at a bench.</summary>
    public async Task TapAsync(int by, IBench bench)
    {
        Guid action = NewId();
        string device = by == 0 ? "bench" : $"phone {by}";
        Task<int?> work = _random.Next(20) switch
        {
            0 => StartAsync(bench, action, device),
            1 => DrawerAsync(async () => await bench.Drawer.AddAsync(new(Size(), _random.Next(1, 4)), new(action, device), Cancel)),
            2 => CountAsync(bench, action, device),
            3 => UndoEntryAsync(bench, action, device),
            4 => SaveEngineAsync(bench),
            5 => FeelAsync(bench, action, device),
            6 => SettingsAsync(bench, device),
            _ => WorkAsync(bench, action, device),
        };
        if (await work is { } facts)
        {
            Taps.Add(new(by, action, time.GetUtcNow().UtcDateTime, facts));
        }
    }

    private async Task<int?> WorkAsync(IBench bench, Guid action, string device)
    {
        IReadOnlyList<JobSummary> jobs = await bench.Jobs.OpenAsync(0, 6, Cancel);
        if (jobs.Count == 0 || await bench.Jobs.FindAsync(jobs[_random.Next(jobs.Count)].Id, Cancel) is not { } job)
        {
            return await StartAsync(bench, action, device);
        }

        JobFact[] facts = [.. _random.Next(5) == 0 ? [Anything(job.Sheet)] : Next(job)];
        AddResult added = await bench.Jobs.AddAsync(job.Summary.Id, new(action, device, job.Sheet.Last, facts), Cancel);
        // A plan from the drawer writes down with it what lay there.
        return added.Outcome == AddOutcome.Saved ? facts.Length : null;
    }

    private JobFact[] Next(StoredJob job) => job.Summary.Stage switch
    {
        JobStage.Measure => [.. Valves.Where(v => !job.Sheet.IsRead(v)).Take(1).Select(v => new ClearanceRead(SheetPart.Check, v, v == "E2" ? 0.17 : Clearance(v), 0.003))],
        JobStage.Shims => [.. Valves.Where(v => job.Sheet.FoundAt(v) is null).Take(1).Select(v => new ThicknessFound(v, 2.45 + (0.025 * _random.Next(5)), "micrometer"))],
        JobStage.Plan => [JobSheetFile.Read(job.Sheet, JobPurpose.Plan).Problems.Count == 0 ? PlanOf(job.Sheet) : new JobNoted("no plan")],
        JobStage.Fit => Fit(job.Sheet),
        JobStage.Recheck => [.. Valves.Where(v => job.Sheet.ChangeAt(v) is not null && job.Sheet.LastReading(SheetPart.Recheck, v) is null).Take(1).Select(v => new ClearanceRead(SheetPart.Recheck, v, Clearance(v), 0.003))],
        JobStage.Close => [new JobClosed(job.Summary.Clock, "dust", "", "Sam")],
        _ => [new JobNoted("late")],
    } is { Length: > 0 } facts ? facts : [new JobNoted("nothing to do")];

    private static JobFact[] Fit(JobSheet sheet) => sheet.Plan!.Changes.FirstOrDefault(c => sheet.ChangeAt(c.Valve) is null && c is { From: not null, To: not null }) is { } line
        ? [new ShimFitted(line.Valve, line.From!, new(line.To!.Thickness, line.To.By))]
        : [.. FitSteps.For(sheet).Where(s => !sheet.IsDone(s.Name)).Take(1).Select(s => new StepTicked(s.Name, true))];

    private JobFact Anything(JobSheet sheet) => _random.Next(7) switch
    {
        0 => new JobNoted($"tea {_random.Next(100)}"),
        1 => new ThicknessFound(Valves[_random.Next(4)], 2.5 + (0.01 * _random.Next(9)), "micrometer"),
        2 when sheet.Entries.Count > 0 => new Undone(sheet.Entries[_random.Next(sheet.Entries.Count)].Action),
        3 when sheet.Entries.Count > 0 && sheet.Entries[_random.Next(sheet.Entries.Count)] is var entry => new Undone(entry.Action, entry.Number),
        4 => new PlanReleased(),
        5 => new StockStated([], [], FromShop: true),
        _ => new ClearanceRead(SheetPart.Check, Valves[_random.Next(4)], Clearance("I1"), 0.003),
    };

    private async Task<int?> StartAsync(IBench bench, Guid action, string device)
    {
        EngineSummary[] engines = [.. await bench.Engines.ListAsync(null, 0, 10, Cancel)];
        StoredEngine engine = (await bench.Engines.FindAsync(engines[_random.Next(engines.Length)].Id, Cancel))!;
        double last = (await bench.Due.PastAsync(engine.Id, Cancel)).Select(p => p.Sheet.Closing?.Clock ?? 0).Append(100).Max();
        return (await JobStart.OnAsync(bench, engine, new(last + _random.Next(5), 20), action, device, Cancel)).Job is null ? null : 0;
    }

    private async Task<int?> CountAsync(IBench bench, Guid action, string device)
    {
        ShimSize size = Size();
        int seen = (await bench.Drawer.LotsAsync(Cancel)).FirstOrDefault(l => l.Size == size)?.Newest ?? 0;
        return await DrawerAsync(() => bench.Drawer.CountAsync([new(size, _random.Next(6))], new(action, device, seen), Cancel));
    }

    private async Task<int?> UndoEntryAsync(IBench bench, Guid action, string device)
    {
        IReadOnlyList<LedgerEntry> all = await bench.Drawer.EntriesAsync(0, null, Cancel);
        return all.Count == 0 ? null : await DrawerAsync(() => bench.Drawer.UndoAsync(all[_random.Next(all.Count)].Number, new(action, device), Cancel));
    }

    private async Task<int?> SaveEngineAsync(IBench bench)
    {
        EngineSummary[] engines = [.. await bench.Engines.ListAsync(null, 0, 10, Cancel)];
        StoredEngine seen = (await bench.Engines.FindAsync(engines[_random.Next(engines.Length)].Id, Cancel))!;
        await bench.Engines.SaveAsync((seen.Id, seen.Version, seen.CardVersion), seen.Name, seen.Card, seen.Details with { Notes = $"note {_random.Next(1000)}" }, seen.Notes, seen.Papers, Cancel);
        return null;
    }

    private async Task<int?> FeelAsync(IBench bench, Guid action, string device)
    {
        Guid person = new(1 + _random.Next(2), 0, 0, new byte[8]);
        await bench.Feel.AddAsync(person, action, device, _random.Next(4) switch
        {
            0 => new FeelNamed($"Sam {_random.Next(9)}"),
            1 => new FeelTakenBack(_random.Next(1, 8)),
            _ => new FeelTried([new(0.195, 0.2, 1, "firm")]),
        }, Cancel);
        return null;
    }

    private async Task<int?> SettingsAsync(IBench bench, string device)
    {
        await bench.Settings.SaveAsync(new BenchSettings { Risk = 0.05 * _random.Next(1, 6) }, (await bench.Settings.CurrentAsync(Cancel)).Version, device, Cancel);
        return null;
    }

    private static async Task<int?> DrawerAsync(Func<Task<DrawerResult>> work) => (await work()).Outcome == AddOutcome.Saved ? 0 : null;

    private ShimSize Size() => new(9480, 2350 + (50 * _random.Next(6)), "micrometer");

    private double Clearance(string valve) => Math.Round((valve[0] == 'I' ? 0.185 : 0.25) + (0.02 * ((_random.NextDouble() * 2) - 1)), 3);

    private Guid NewId()
    {
        byte[] bytes = new byte[16];
        _random.NextBytes(bytes);
        return new(bytes);
    }
}
