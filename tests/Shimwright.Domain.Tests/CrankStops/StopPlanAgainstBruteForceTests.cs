using Shimwright.Domain.CrankStops;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.CrankStops;

[Proof(Formulas.Stops, Evidence.Computed, "Every half degree tried on random layouts.")]
public class StopPlanAgainstBruteForceTests(ITestOutputHelper output)
{
    /// <summary>Count, smallest slack, every stop and every listed valve, on random layouts.</summary>
    [Theory]
    [Long]
    [InlineData(true)]
    [InlineData(false)]
    public void For_RandomLayouts_IsWhatEveryHalfDegreeSays(bool anywhere)
    {
        int runs = Effort.Cases(100, 2_000);
        var chance = new SeededChance(20250701);
        Dictionary<int, int> plans = [];
        for (int run = 0; run < runs; run++)
        {
            CrankLayout layout = RandomLayout.Of(chance);
            StopPlan? plan = StopPlan.For(layout, anywhere);
            IReadOnlyList<(double Angle, IReadOnlyList<(int Valve, double Slack)> Valves)>? slow = new SlowStops(layout, anywhere).Best();
            plans[slow?.Count ?? 0] = plans.GetValueOrDefault(slow?.Count ?? 0) + 1;

            Assert.Equal(slow is null, plan is null);
            Assert.Equal(
                slow?.SelectMany(s => s.Valves.Select(v => (s.Angle, v.Valve, v.Slack))),
                plan?.Stops.SelectMany(s => s.Valves.Select(v => (Math.Round(s.Angle, 6), v.Valve, Math.Round(v.Slack, 6)))));
        }

        output.WriteLine($"{(anywhere ? "anywhere" : "marks")}: {string.Join(", ", plans.OrderBy(p => p.Key).Select(p => $"{p.Value} with {p.Key} stops"))}");

        // The layouts are of use only where the answers differ; without a plan: no mark serves some valve.
        Assert.True(plans.Keys.Count(k => k > 0) >= 4);
        Assert.True(plans[1] + plans[2] < runs * 9 / 10);
    }

    [Fact]
    [Long]
    public void ServedByNoMark_RandomLayouts_NamesThoseThatNoMarkServes()
    {
        int runs = Effort.Cases(100, 2_000);
        var chance = new SeededChance(20250702);
        int without = 0;
        for (int run = 0; run < runs; run++)
        {
            CrankLayout layout = RandomLayout.Of(chance);
            bool all = StopPlan.ServedByNoMark(layout).Count == 0;
            Assert.Equal(new SlowStops(layout, anywhere: false).Best() is not null, all);
            without += all ? 0 : 1;
        }

        Assert.InRange(without, runs / 40, runs - (runs / 40));
    }
}
