using System.Globalization;
using System.Text.Json.Nodes;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Written;
using Shimwright.Storage;

namespace Shimwright.Cli.Commands;

/// <summary>
/// The flood crew's pumps with the checks of a season behind them, so that the room Due has something to say: each pump is worn,
/// felt, worked on by the advised plan and closed, on days that are past.
/// </summary>
internal sealed class DemoShed
{
    private const int Seed = 20_260_501;
    private const string CardFile = "01-flood-pump.json";
    private const double RedoMinutes = 90;
    private const double ShimDiameter = 13;
    private const int SeasonWeeks = 52;

    private static readonly double[] Blades = [0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23, 0.25, 0.28, 0.30, 0.33];

    /// <summary>Name, usage a week, weeks since the last check, checks, and how much faster than usual its valves wear.</summary>
    private static readonly (string Name, double? Stated, int WeeksAgo, int Checks, double Pace)[] Pumps =
    [
        ("Flood pump 21, the coast road", 7, 7, 4, 1.0),
        ("Flood pump 22, the coast road", 5, 2, 4, 0.8),
        ("Flood pump 23, the sluice", null, 3, 5, 0.7),
        ("Flood pump 24, the gravel pit", 4, 1, 4, 2.2),
        ("Flood pump 25, spare", null, 0, 1, 1.0),
    ];

    private readonly DemoTime _time = new();
    private readonly Random _random = new(Seed);
    private readonly BenchDatabase _past;
    private readonly DemoBench _bench;

    private DemoShed(string file)
    {
        _past = BenchDatabase.At(file, _time);
        _bench = new DemoBench(_past);
    }

    /// <summary>Adds the pumps to a bench in a file.</summary>
    public static async Task FillAsync(BenchDatabase database)
    {
        var shed = new DemoShed(database.File ?? throw new ArgumentException("The demo is kept in a file.", nameof(database)));
        JsonNode file = JsonNode.Parse(await DemoBench.TextAsync(CardFile))!;
        Guid? card = null;
        await shed.FillDrawerAsync();
        foreach ((string name, double? stated, int weeksAgo, int checks, double pace) in Pumps)
        {
            Guid engine = DemoBench.NewId();
            if (card is { } shared)
            {
                await database.Engines.AddSharingAsync(engine, name, shared);
            }
            else
            {
                await database.Engines.AddAsync(engine, name, EngineCard.Read((JsonObject)file["engine"]!).Card!, new CardDetails { LimitsFrom = "The demo's own invention", ShimDiameter = ShimDiameter, ThinnestShim = 1.85 });
            }

            StoredEngine stored = (await database.Engines.FindAsync(engine))!;
            card = stored.CardId;
            await shed.WearAsync(stored, checks, weeksAgo, pace);
            if (stated is not null)
            {
                await database.Due.StateUsageAsync(engine, stated);
            }
        }

        await database.Due.RefreshStaleAsync(int.MaxValue);
    }

    /// <summary>A row of sizes, two of each, from before the season: the jobs take out of it and put back into it.</summary>
    private async Task FillDrawerAsync()
    {
        _time.WeeksAgo(SeasonWeeks);
        for (int n = 0; n <= 16; n++)
        {
            var size = ShimSize.Of(ShimDiameter, 1.90 + (0.05 * n), "marked");
            var stamp = new DrawerStamp(DemoBench.NewId(), DemoBench.Device);
            DrawerResult result = await _past.Drawer.AddAsync(new ShimCount(size, 2, string.Create(CultureInfo.InvariantCulture, $"A{n + 1}"), 6), stamp);
            if (result.Outcome != AddOutcome.Saved)
            {
                throw new InvalidDataException($"The demo is refused: {string.Join("; ", result.Problems)}");
            }
        }
    }

    private async Task WearAsync(StoredEngine engine, int checks, int weeksAgo, double pace)
    {
        Valve[] valves = [.. engine.Card.Engine.Valves];
        double[] clearance = [.. valves.Select(v => v.Band.Low + (0.7 * (v.Band.High - v.Band.Low)))];
        double[] shim = [.. valves.Select((_, v) => 2.30 + (0.05 * ((v + engine.Name.Length) % 4)))];
        double[] loss = [.. valves.Select(v => pace * (v.Side == ValveSide.Intake ? 0.022 : 0.012) * (0.8 + (0.4 * _random.NextDouble())))];
        double clock = 20;
        for (int k = 0; k < checks; k++)
        {
            _time.WeeksAgo(weeksAgo + (8 * (checks - 1 - k)));
            await CheckAsync(engine, clock, clearance, shim);
            clock += 42 + (6 * _random.NextDouble());
            for (int v = 0; v < valves.Length; v++)
            {
                clearance[v] -= loss[v] + (0.003 * (_random.NextDouble() - 0.5));
            }
        }
    }

    /// <summary>One check: felt, planned, carried out, felt again, closed.</summary>
    private async Task CheckAsync(StoredEngine engine, double clock, double[] clearance, double[] shim)
    {
        IReadOnlyList<Valve> valves = engine.Card.Engine.Valves;
        WrittenStart start = new BenchSettings { Redo = RedoMinutes }.ForJob(engine.Card.Engine.AccessGroups.ToDictionary(g => g, _ => 25.0));
        ParsedSetup reading = JobSetup.Begin(
            engine.Card, Math.Round(clock, 1), 20, start with { History = EngineHistory.Of(engine.Card, await _past.Due.PastAsync(engine.Id)) });
        JobSetup setup = reading.Setup ?? throw new InvalidDataException(string.Join("; ", reading.Problems));
        JobFact[] facts =
        [
            .. valves.SelectMany((v, i) => Felt(SheetPart.Check, v.Id, clearance[i])),
            .. valves.Select((v, i) => new ThicknessFound(v.Id, Math.Round(shim[i], 2), "micrometer")),
        ];
        Guid job = await _past.Jobs.StartAsync(engine.Id, setup, facts, JobPast.OfBench, DemoBench.NewId(), DemoBench.Device);
        PlanAccepted plan = await _bench.AcceptAsync(job);
        foreach (PlanRow row in ShimMoves.InOrder(plan).Select(m => m.Row))
        {
            int v = valves.Index().Single(i => i.Item.Id == row.Valve).Index;
            clearance[v] += row.From!.Thickness - row.To!.Thickness + (0.006 * (_random.NextDouble() - 0.5));
            shim[v] = row.To.Thickness;
            await _bench.AddAsync(job, PlannedChange.Of(row));
            await _bench.AddAsync(job, [.. Felt(SheetPart.Recheck, row.Valve, clearance[v])]);
        }

        await _bench.TickAsync(job, _ => true);
        await _bench.AddAsync(job, new JobClosed(Math.Round(clock, 1), "", "", "Wren, at the pump shed"));
    }

    /// <summary>What steady fingers feel: the thickest blade that goes in loose or light, and the one after it.</summary>
    private static IEnumerable<BladeTried> Felt(SheetPart part, string valve, double gap)
    {
        int next = Array.FindIndex(Blades, b => Feel(gap - b) is "firm" or "no");
        next = next < 0 ? Blades.Length - 1 : next;
        foreach (double blade in next == 0 ? Blades[..1] : Blades[(next - 1)..(next + 1)])
        {
            yield return new(part, valve, blade, 1, Feel(gap - blade));
        }
    }

    /// <summary>The usual feel of a gap that is wider than the blade by this much.</summary>
    private static string Feel(double wider) => wider switch { > 0.017 => "loose", > -0.005 => "light", > -0.025 => "firm", _ => "no" };

    /// <summary>A clock that stands some weeks back.</summary>
    private sealed class DemoTime : TimeProvider
    {
        private DateTimeOffset _at = System.GetUtcNow();

        public void WeeksAgo(int weeks) => _at = System.GetUtcNow().AddDays(-7 * weeks);

        public override DateTimeOffset GetUtcNow() => _at;
    }
}
