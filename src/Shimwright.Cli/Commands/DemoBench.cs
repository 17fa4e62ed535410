using System.Text.Json.Nodes;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Storage;

namespace Shimwright.Cli.Commands;

/// <summary>The demo workshop as a bench: its engines, and its jobs at different stages.</summary>
internal sealed class DemoBench
{
    /// <summary>The device that the demo's facts come from.</summary>
    public const string Device = "demo";

    /// <summary>The job that is being fitted, and the one that waits for its re-check.</summary>
    private const string BeingFitted = "02-worn-four.json", ToBeRechecked = "06-plant-engine-screws.json";

    private readonly BenchDatabase _database;

    /// <summary>Works on a bench.</summary>
    public DemoBench(BenchDatabase database) => _database = database;

    /// <summary>Fills an empty database with the demo workshop.</summary>
    /// <returns>The job that is in the middle of being measured.</returns>
    public static async Task<Guid> FillAsync(BenchDatabase database)
    {
        var bench = new DemoBench(database);
        Guid inProgress = default;
        await DemoShed.FillAsync(database);
        await bench.CloseAsync(DemoTour.Stops[0].File, "Flood pump 9, the mill race");
        foreach ((string file, _) in DemoTour.Stops)
        {
            (JobSetup setup, IReadOnlyList<JobFact> facts) = Read(await TextAsync(file));
            bool isFirst = inProgress == default;
            Guid job = await bench.StartAsync(setup, isFirst ? Begun(setup, facts) : CheckOf(facts));
            inProgress = isFirst ? job : inProgress;
            switch (file)
            {
                case BeingFitted:
                    await bench.FitAsync(job, valves: 2, isFinished: false);
                    break;
                case ToBeRechecked:
                    await bench.FitAsync(job, valves: int.MaxValue, isFinished: true);
                    break;
            }
        }

        return inProgress;
    }

    /// <summary>The whole of a job, from a file with a re-check in it, on an engine of its own.</summary>
    private async Task CloseAsync(string file, string engine)
    {
        JsonNode json = JsonNode.Parse(await TextAsync(file))!;
        json["engine"]!["name"] = engine;
        (JobSetup setup, IReadOnlyList<JobFact> facts) = Read(json.ToJsonString());
        Guid job = await StartAsync(setup, CheckOf(facts));
        await AcceptAsync(job);
        await AddAsync(job, [.. facts.OfType<ChangeFact>()]);
        await TickAsync(job, _ => true);
        await AddAsync(job, [.. facts.Where(f => f is RecheckStated or ReadingFact { Part: SheetPart.Recheck })]);
        await AddAsync(job, new JobClosed(
            setup.Start.Clock + 0.5,
            "I1 and E2 took no blade. The pump ran at full load for nine days in the flood.",
            "Check the clearances again after ten hours of running.",
            "Wren, at the pump shed"));
    }

    /// <summary>Accepts the advised plan and carries it out as far as is told.</summary>
    private async Task FitAsync(Guid job, int valves, bool isFinished)
    {
        PlanAccepted plan = await AcceptAsync(job);
        await TickAsync(job, step => !step.After);
        foreach (PlanRow row in ShimMoves.InOrder(plan).Take(valves).Select(m => m.Row))
        {
            await AddAsync(job, PlannedChange.Of(row));
        }

        if (isFinished)
        {
            await TickAsync(job, step => step.After);
        }
    }

    /// <summary>Accepts the advised plan.</summary>
    public async Task<PlanAccepted> AcceptAsync(Guid job)
    {
        JobSheet sheet = (await _database.Jobs.FindAsync(job))!.Sheet;
        ParsedJob reading = JobSheetFile.Read(sheet, JobPurpose.Plan);
        PlanResult result = PlanResult.Of(reading.Job ?? throw new InvalidDataException(string.Join("; ", reading.Problems)));
        PlanAccepted plan = PlanProposal.AllOf(result).Single(p => p.IsAdvised).Plan;
        await AddAsync(job, plan);
        return plan;
    }

    /// <summary>Ticks steps.</summary>
    public async Task TickAsync(Guid job, Func<FitStep, bool> which)
    {
        JobSheet sheet = (await _database.Jobs.FindAsync(job))!.Sheet;
        StepTicked[] ticks = [.. FitSteps.For(sheet).Where(which).Select(s => new StepTicked(s.Name, true))];
        if (ticks.Length > 0)
        {
            await AddAsync(job, ticks);
        }
    }

    /// <summary>Adds facts, which must be taken.</summary>
    public async Task AddAsync(Guid job, params IReadOnlyList<JobFact> facts)
    {
        AddResult result = await _database.Jobs.AddAsync(job, new Addition(NewId(), Device, int.MaxValue, facts));
        if (!result.IsSaved)
        {
            throw new InvalidDataException($"The demo is refused: {result.Outcome}, {string.Join("; ", result.Problems)}");
        }
    }

    private async Task<Guid> StartAsync(JobSetup setup, IReadOnlyList<JobFact> facts)
    {
        Guid engine = NewId();
        await _database.Engines.AddAsync(engine, setup.Card.Engine.Name, setup.Card, new CardDetails { LimitsFrom = "The demo's own invention" });
        return await _database.Jobs.StartAsync(engine, setup, facts, NewId(), Device);
    }

    /// <summary>A file of the demo folder.</summary>
    public static async Task<string> TextAsync(string file) => await File.ReadAllTextAsync(Path.Combine(DemoCommand.Folder, file));

    private static (JobSetup Setup, IReadOnlyList<JobFact> Facts) Read(string text)
    {
        ParsedSetup reading = JobSetup.FromFile(System.Text.Encoding.UTF8.GetBytes(text));
        return (reading.Setup ?? throw new InvalidDataException(string.Join("; ", reading.Problems)), reading.Facts);
    }

    /// <summary>An id for something new.</summary>
    public static Guid NewId() => Guid.CreateVersion7(TimeProvider.System.GetUtcNow());

    /// <summary>The check without what was done after it.</summary>
    private static List<JobFact> CheckOf(IEnumerable<JobFact> facts) =>
        [.. facts.Where(f => f is ReadingFact { Part: SheetPart.Check } or ThicknessFound)];

    /// <summary>The readings of all valves but the last.</summary>
    private static List<JobFact> Begun(JobSetup setup, IEnumerable<JobFact> facts)
    {
        string last = setup.Card.Engine.Valves[^1].Id;
        return [.. facts.OfType<ReadingFact>().Where(r => r.Part == SheetPart.Check && r.Valve != last)];
    }
}
