using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Tests.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>Do plans come true? Each is carried out on the engine it was made for, with true shims and true hands.</summary>
public class PlanCoverageTests(ITestOutputHelper output)
{
    private const int Engines = 600;

    [Fact]
    public void Plans_CarriedOutOnSimulatedEngines_SucceedAsOftenAsTheyClaim()
    {
        var chance = new SeededChance(555);
        var each = new Tally("a valve in band afterwards", 0.9, 0.97);
        var changed = new Tally("a changed valve in band afterwards");
        var all = new Tally("all in band afterwards", 0.2, 0.4, 0.6);
        for (int i = 0; i < Engines; i++)
        {
            var engine = new SimulatedEngine(chance, 2);
            ShimPlan plan = Planner.Plan(Request(engine, chance)).Chosen;
            double[] after = CarryOut(plan, engine.Clearances, chance);
            bool allIn = true;
            foreach ((int v, PlannedValve line) in plan.Valves.Index().Where(l => !l.Item.IsStranded))
            {
                ClearanceBand band = line.Valve.Band;
                bool isIn = after[v] >= band.Low && after[v] <= band.High;
                each.Add(line.Chance!.Value, isIn);
                allIn &= isIn;
                if (line.Action == ValveAction.Fit)
                {
                    changed.Add(line.Chance.Value, isIn);
                }
            }

            all.Add(plan.ChanceAll, allIn);
        }

        each.AssertHolds(output, 100);
        changed.AssertHolds(output, 300);
        all.AssertHolds(output, 60);
    }

    private static PlanRequest Request(SimulatedEngine engine, SeededChance chance)
    {
        Thickness[] fitted =
        [
            .. engine.Clearances.Select(_ => new Thickness(
                Math.Round(chance.Uniform(2.5, 2.8), 2), chance.Pick(Instrument.Marked, Instrument.Micrometer))),
        ];
        DrawerShims[] drawer = [.. Enumerable.Range(0, 6).Select(_ => new DrawerShims(Made.Measured(Math.Round(chance.Uniform(2.4, 2.8), 2)), 1))];
        var shop = new SizeRange(1.8, 3.4, 0.05, 8);
        var costs = new PlanCosts(access: new Dictionary<string, double> { ["intake cam"] = 25, ["exhaust cam"] = 25 });
        return new(engine.Check, fitted, new Stock(drawer, [.. shop.Sizes(Instrument.Marked)]), costs);
    }

    /// <summary>The true clearances afterwards: every shim has one true thickness, wherever it goes.</summary>
    private static double[] CarryOut(ShimPlan plan, double[] before, SeededChance chance)
    {
        Dictionary<string, double> zero = new()
        {
            [Instrument.Marked.Name] = 0,
            [Instrument.Micrometer.Name] = chance.Normal(0, Instrument.Micrometer.Shared),
        };
        double True(Thickness t) => t.Millimetres + zero[t.By.Name] + chance.Normal(0, t.By.Repeatability);
        double[] old = [.. plan.Valves.Select(v => True(v.From!))];
        return
        [
            .. plan.Valves.Select((line, v) => line.To is null
                ? before[v]
                : before[v] + old[v] - (line.FromValve is { } giver ? old[giver] : True(line.To)) + chance.Normal(0, 0.004)),
        ];
    }
}
