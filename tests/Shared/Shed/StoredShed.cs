using Shimwright.Bench;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Orders;
using Shimwright.Bench.Settings;
using Shimwright.Bench.Starting;
using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Written;

namespace Shimwright.Testing.Shed;

/// <summary>The bench itself: its stores on a bench. Two devices may work on it at once.</summary>
internal sealed class StoredShed(IBench bench) : IShedBench
{
    private const string Device = "shed";
    private const int Plenty = 64;

    public async Task<ShedAnswer> AskAsync(ShedCall call) => call switch
    {
        RiskSet risk => await SetAsync(risk),
        EngineAdded engine => await AddAsync(engine),
        JobStarted start => await StartAsync(start),
        FactsAdded facts => Of(await bench.Jobs.AddAsync(facts.Job, new(facts.Action, Device, int.MaxValue, facts.Facts))),
        ShimsPutIn shims => Of(await bench.Drawer.AddAsync(new(shims.Size, shims.Count), new(shims.Action, Device))),
        ShimsCounted counted => Of(await bench.Drawer.CountAsync(counted.Counted, new(counted.Action, Device))),
        PlanAsked asked => PlanOf((await FindAsync(asked.Job)).Sheet),
        StepsAsked asked => new() { Steps = [.. FitSteps.For((await FindAsync(asked.Job)).Sheet).Select(s => s.Name)] },
        DueAsked asked => new() { DueAt = (await bench.Due.FindAsync(asked.Engine))?.DueAt },
        OrdersAsked asked => await OrdersAsync(asked),
        _ => throw new ArgumentException($"Nobody knows {call}.", nameof(call)),
    };

    private async Task<ShedAnswer> SetAsync(RiskSet risk)
    {
        StoredSettings now = await bench.Settings.CurrentAsync();
        bool isSaved = now.Settings.Risk == risk.Risk || await bench.Settings.SaveAsync(now.Settings with { Risk = risk.Risk }, now.Version, Device);
        return new() { Outcome = isSaved ? AddOutcome.Saved : AddOutcome.Conflict };
    }

    /// <summary>Engines of a kind share the card of the first of them.</summary>
    private async Task<ShedAnswer> AddAsync(EngineAdded engine)
    {
        ShedKind kind = ShedKind.All[engine.Kind];
        IReadOnlyList<EngineSummary> alike = await bench.Engines.ListAsync(kind.Name, 0, 1);
        if (alike.Count == 0)
        {
            await bench.Engines.AddAsync(engine.Id, engine.Name, kind.Card(), new CardDetails { ShimDiameter = kind.Diameter });
        }
        else
        {
            await bench.Engines.AddSharingAsync(engine.Id, engine.Name, alike[0].CardId);
        }

        await bench.Due.StateUsageAsync(engine.Id, engine.PerWeek);
        return new();
    }

    /// <summary>As the page starts a job: with what the bench has set and with the engine's past.</summary>
    private async Task<ShedAnswer> StartAsync(JobStarted start)
    {
        StoredEngine engine = await bench.Engines.FindAsync(start.Engine) ?? throw new InvalidOperationException($"There is no engine {start.Engine}.");
        StartedJob started = await JobStart.OnAsync(bench, engine, new(start.Clock, 20), start.Action, Device);
        return started.Job is null ? new() { Outcome = AddOutcome.Refused, Problems = Texts(started.Problems) } : new() { Job = started.Job.Value };
    }

    private async Task<ShedAnswer> OrdersAsync(OrdersAsked asked)
    {
        while (await bench.Due.RefreshStaleAsync(Plenty) > 0)
        {
        }

        FleetOrders orders = await bench.Orders.ListAsync(TimeSpan.FromDays(asked.Days), asked.ServiceLevel);
        return new()
        {
            Orders =
            [
                .. orders.Diameters.SelectMany(d => d.Orders.Lines.Select(l => new OrderRow(
                    new(d.Diameter, ShimSize.Micrometres(l.Size), "marked"), l.Wanted.Chances, l.OnHand, l.ToOrder, l.CoveredThen))),
            ],
            Due = orders.Counted.ToDictionary(c => c.Id, c => c.Wanted),
        };
    }

    private static ShedAnswer PlanOf(JobSheet sheet)
    {
        ShedKind kind = ShedKind.All.First(k => sheet.Engine.Name.StartsWith(k.Name, StringComparison.Ordinal));
        PlanAccepted full = PlanFor(sheet.With(new StockStated([.. kind.Sizes.Select(s => new ShimsAtHand(s.ThicknessMm, s.By, Plenty))], [])));
        Dictionary<string, string> access = sheet.Engine.Valves.ToDictionary(v => v.Id, v => v.Access);
        return new()
        {
            Plan = PlanFor(sheet),
            Wanted =
            [
                .. full.Changes.Where(c => c.To is { Source: "drawer" }).Select(c => new WantedShim(
                    ShimSize.Of(kind.Diameter, c.To!.Thickness, c.To.By), c.Estimate.InBand, full.Changes.Any(o => o.Valve != c.Valve && access[o.Valve] == access[c.Valve]))),
            ],
        };
    }

    private static PlanAccepted PlanFor(JobSheet sheet)
    {
        ParsedJob reading = JobSheetFile.Read(sheet, JobPurpose.Plan);
        PlanResult plan = PlanResult.Of(reading.Job ?? throw new InvalidOperationException($"No plan can be made: {string.Join("; ", reading.Problems)}"));
        return new(plan.Opened, plan.ChanceAll, plan.Minutes, plan.Bought, plan.Valves, plan.Stranded);
    }

    private async Task<StoredJob> FindAsync(Guid job) => await bench.Jobs.FindAsync(job) ?? throw new InvalidOperationException($"There is no job {job}.");

    private static ShedAnswer Of(AddResult result) => new() { Outcome = result.Outcome, Problems = Texts(result.Problems) };

    private static ShedAnswer Of(DrawerResult result) => new() { Outcome = result.Outcome, Problems = Texts(result.Problems) };

    private static IReadOnlyList<string> Texts(IReadOnlyList<JobProblem> problems) => [.. problems.Select(p => p.ToString())];
}
