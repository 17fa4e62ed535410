using Shimwright.Bench.Jobs;
using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Written;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Alike;

/// <summary>Works on the jobs of two benches, mostly what comes next, sometimes anything else.</summary>
internal sealed class RandomJobs(Random random, Twins twins)
{
    private static readonly string[] Valves = ["I1", "I2", "E1", "E2"];

    private readonly List<(int Job, Guid Action)> _actions = [];

    /// <summary>Adds something to one of the newest jobs.</summary>
    public async Task<string> WorkAsync()
    {
        if (twins.First.Jobs.Count == 0)
        {
            return "none";
        }

        int place = Math.Max(0, twins.First.Jobs.Count - 1 - random.Next(2));
        StoredJob job = (await twins.First.Bench.Jobs.FindAsync(twins.First.Jobs[place], Cancel))!;
        bool again = _actions.Count > 0 && random.Next(12) == 0;
        (int Job, Guid Action) sent = again ? _actions[random.Next(_actions.Count)] : (place, NewId());
        _actions.Add(sent);
        JobFact[] facts = job.Sheet.IsDiscarded && random.Next(3) > 0 ? [new JobPutBack()] : random.Next(7) == 0 ? [Anything(job.Sheet)] : [.. Next(job)];
        (string device, int seen) = random.Next(4) == 0 ? ("tablet", Math.Max(0, job.Sheet.Last - random.Next(4))) : ("phone", int.MaxValue);
        return await twins.DoAsync(
            $"job {sent.Job}: {string.Join(", ", facts.Select(f => f.GetType().Name))}",
            async t => Views.Text(await t.Bench.Jobs.AddAsync(t.Jobs[sent.Job], new(sent.Action, device, seen, facts), Cancel)));
    }

    private IEnumerable<JobFact> Next(StoredJob job) => job.Summary.Stage switch
    {
        // Mostly a valve is out, so that there is work; the others are closed as they were found where all are in band.
        JobStage.Measure => Valves.Select(v => new ClearanceRead(SheetPart.Check, v, v == "E2" && random.Next(4) > 0 ? 0.17 : Clearance(v, 0.05), 0.003)),
        JobStage.Shims => Valves.Select(v => new ThicknessFound(v, 2.45 + (0.025 * random.Next(5)), random.Next(3) == 0 ? "marked" : "micrometer")),
        JobStage.Plan => [JobSheetFile.Read(job.Sheet, JobPurpose.Plan).Problems.Count == 0 ? PlanOf(job.Sheet) : new JobNoted("no plan")],
        JobStage.Fit => Fit(job.Sheet),
        JobStage.Recheck => Valves.Where(v => job.Sheet.ChangeAt(v) is not null).Select(v => new ClearanceRead(SheetPart.Recheck, v, Clearance(v, 0.015), 0.003)),
        JobStage.Close => [new JobClosed(job.Summary.Clock + random.Next(3), "dust", "", "Sam")],
        _ => [random.Next(2) == 0 ? new JobReopened() : new JobNoted("late\0")],
    };

    private IEnumerable<JobFact> Fit(JobSheet sheet) =>
    [
        .. FitSteps.For(sheet).Where(s => !sheet.IsDone(s.Name)).Select(s => new StepTicked(s.Name, true)),
        .. sheet.Plan!.Changes.Where(c => sheet.ChangeAt(c.Valve) is null && c is { From: not null, To: not null })
            .Select(c => new ShimFitted(c.Valve, c.From!, new(c.To!.Thickness + (random.Next(4) == 0 ? 0.01 : 0), random.Next(3) == 0 ? "micrometer" : c.To.By))),
    ];

    private JobFact Anything(JobSheet sheet) => random.Next(11) switch
    {
        0 => new JobNoted("\ud800 tea"),
        1 => new ClearanceRead(SheetPart.Recheck, Pick(), Clearance("I1", 0.04), 0.003),
        2 => new ThicknessFound(Pick(), 2.5 + (0.01 * random.Next(9)), "micrometer"),
        3 => new ThicknessFound("X9", 262, "marked"),
        4 => new PlanReleased(),
        5 => new JobReopened(),
        6 when sheet.Entries.Count > 0 => new Undone(sheet.Entries[random.Next(sheet.Entries.Count)].Action),
        7 => new StockStated([new ShimsAtHand(2.45, "micrometer", 1)], [], FromShop: random.Next(2) == 0),
        8 => new JobClosed(sheet.Check.Clock, "", "", ""),
        9 => new JobPutBack(),
        _ => new JobDiscarded(),
    };

    private double Clearance(string valve, double spread) => Math.Round((valve[0] == 'I' ? 0.185 : 0.25) + (spread * ((random.NextDouble() * 2) - 1)), 3);

    private string Pick() => Valves[random.Next(Valves.Length)];

    private Guid NewId()
    {
        byte[] bytes = new byte[16];
        random.NextBytes(bytes);
        return new(bytes);
    }
}
