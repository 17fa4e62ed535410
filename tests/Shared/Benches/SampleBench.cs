using System.Text;
using System.Text.Json.Nodes;
using Shimwright.Bench;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Testing.Benches;

/// <summary>Engines and jobs for tests, made as the rooms of the program make them.</summary>
internal static class SampleBench
{
    public static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static string Demo(string file = "01-flood-pump.json") => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "demo", file));

    public static EngineCard Card(string name = "Flood pump 7")
    {
        var card = (JsonObject)JsonNode.Parse(Demo())!["engine"]!.DeepClone();
        card["name"] = name;
        return EngineCard.Read(card).Card!;
    }

    public static async Task<Guid> AddEngineAsync(this IBench bench, string name = "Flood pump 7", string notes = "")
    {
        Guid id = Guid.NewGuid();
        await bench.Engines.AddAsync(id, name, Card(name), new CardDetails(), notes, cancel: Cancel);
        return id;
    }

    /// <summary>A job on an engine of its own, nothing read yet: valves I1, I2, E1, E2.</summary>
    public static async Task<Guid> StartJobAsync(this IBench bench, Guid? engine = null) =>
        await bench.Jobs.StartAsync(engine ?? await bench.AddEngineAsync(), Setup(), [], Guid.NewGuid(), "phone", Cancel);

    public static JobSetup Setup(double clock = 118) =>
        JobSetup.Begin(Card(), clock, 20, new BenchSettings().ForJob(new Dictionary<string, double> { ["intake cam"] = 25 })).Setup!;

    public static Task<AddResult> SendAsync(this IBench bench, Guid job, string device, int seen, params JobFact[] facts) =>
        bench.Jobs.AddAsync(job, new(Guid.NewGuid(), device, seen, facts), Cancel);

    /// <summary>Sends facts that must be saved.</summary>
    public static async Task SaveAsync(this IBench bench, Guid job, params JobFact[] facts)
    {
        AddResult result = await bench.SendAsync(job, "phone", int.MaxValue, facts);
        Assert.True(result.Outcome == AddOutcome.Saved, $"{result.Outcome}: {string.Join('\n', result.Problems)}");
    }

    public static async Task<StoredJob> FindJobAsync(this IBench bench, Guid job)
    {
        StoredJob? found = await bench.Jobs.FindAsync(job, Cancel);
        Assert.NotNull(found);
        return found;
    }

    /// <summary>All four valves read and their shims known.</summary>
    public static Task MeasureAsync(this IBench bench, Guid job) => bench.SaveAsync(job,
        [
            new ClearanceRead(SheetPart.Check, "I1", 0.185, 0.003), new ClearanceRead(SheetPart.Check, "I2", 0.185, 0.003),
            new ClearanceRead(SheetPart.Check, "E1", 0.255, 0.003), new ClearanceRead(SheetPart.Check, "E2", 0.17, 0.003),
            .. new[] { "I1", "I2", "E1", "E2" }.Select(v => new ThicknessFound(v, 2.5, "micrometer")),
        ]);

    public static PlanAccepted PlanOf(JobSheet sheet)
    {
        PlanResult plan = PlanResult.Of(JobSheetFile.Read(sheet, JobPurpose.Plan).Job!);
        return new(plan.Opened, plan.ChanceAll, plan.Minutes, plan.Bought, plan.Valves, plan.Stranded);
    }

    /// <summary>A whole job up to the re-check of its one changed valve, E2.</summary>
    public static async Task<Guid> WorkedJobAsync(this IBench bench, Guid? engine = null)
    {
        Guid job = await bench.StartJobAsync(engine);
        await bench.MeasureAsync(job);
        JobSheet sheet = (await bench.FindJobAsync(job)).Sheet;
        PlanAccepted plan = PlanOf(sheet);
        PlanRow line = Assert.Single(plan.Changes);
        await bench.SaveAsync(job, plan);
        sheet = (await bench.FindJobAsync(job)).Sheet;
        await bench.SaveAsync(job, [.. FitSteps.For(sheet).Select(s => new StepTicked(s.Name, true))]);
        await bench.SaveAsync(job, new ShimFitted(line.Valve, line.From!, new(line.To!.Thickness, line.To.By)), new ClearanceRead(SheetPart.Recheck, line.Valve, 0.255, 0.003));
        return job;
    }

    public static ParsedSetup ImportedJob(string file) => JobSetup.FromFile(Encoding.UTF8.GetBytes(Demo(file)));
}
