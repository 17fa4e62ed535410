using Shimwright.Domain.Planning;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Tests.Readings;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>Simulated work: a bench for a simulated engine, and what a plan does to its true clearances.</summary>
internal static class CarriedOut
{
    public static PlanRequest Request(SimulatedEngine engine, SeededChance chance)
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
    public static double[] Clearances(ShimPlan plan, double[] before, SeededChance chance)
    {
        Dictionary<string, double> zero = new()
        {
            [Instrument.Marked.Name] = 0,
            [Instrument.Micrometer.Name] = chance.Normal(0, Instrument.Micrometer.Systematic),
        };
        double True(Thickness t) => t.Millimetres + zero[t.By.Name] + chance.Normal(0, t.By.Random);
        double[] old = [.. plan.Valves.Select(v => True(v.From!))];
        return
        [
            .. plan.Valves.Select((line, v) => line.To is null
                ? before[v]
                : before[v] + old[v] - (line.FromValve is { } giver ? old[giver] : True(line.To)) + chance.Normal(0, 0.004)),
        ];
    }
}
