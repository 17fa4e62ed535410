using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

public class ShimPlanTests
{
    [Fact]
    public void Plan_TwoValvesWithEachOthersShim_Exchange()
    {
        EngineCheck check = Made.Check(Made.Value(0.05, 0.005), Made.Value(0.25, 0.005));
        ShimPlan plan = Planner.Plan(new PlanRequest(check, [Made.Marked(2.60), Made.Marked(2.50)])).Chosen;

        Assert.Equal([2.50, 2.60], plan.Valves.Select(v => v.To!.Millimetres));
        Assert.Equal([ShimSource.Engine, ShimSource.Engine], plan.Valves.Select(v => v.Source));
        Assert.Equal([1, 0], plan.Valves.Select(v => v.FromValve));
        Assert.Empty(plan.Bought);
        Assert.Equal(["cover"], plan.Opened);
    }

    [Theory]
    [InlineData(Adjuster.FingerFollower, 1.5, 2.53)]
    [InlineData(Adjuster.FingerFollower, 2, 2.55)]
    [InlineData(Adjuster.GradedBucket, 1, 2.50)]
    [InlineData(Adjuster.ShimOverBucket, 1, 2.50)]
    public void Plan_Ratio_WeighsTheChangeOfThickness(Adjuster adjuster, double ratio, double bought)
    {
        EngineCheck check = new(Made.Engine(new Valvetrain(adjuster, ratio), Made.Valve()), [Made.Value(0.05, 0.005)]);
        var shop = new Stock([], [.. new SizeRange(2.40, 2.60, 0.01, 8).Sizes(Instrument.Marked)]);
        ShimPlan plan = Planner.Plan(new PlanRequest(check, [Made.Marked(2.60)], shop)).Chosen;

        PlannedValve line = plan.Valves[0];
        Assert.Equal(bought, line.To!.Millimetres, 1e-9);
        Assert.Equal([new Purchase(line.To, 1)], plan.Bought);
        Assert.Equal(line.Estimate.Mean + (ratio * (2.60 - line.To.Millimetres)), line.After!.Mean, 1e-6);

        // 0.008 for each mark, at the gap, and the seating.
        double change = (ratio * ratio * 2 * 0.008 * 0.008) + (0.004 * 0.004);
        double after = Math.Sqrt(Math.Pow(line.Estimate.StandardDeviation, 2) + change);
        Assert.Equal(after, line.After.StandardDeviation, 1e-6);
    }

    [Fact]
    public void Bought_SeveralOfOneSize_AreCountedThinnestFirst()
    {
        EngineCheck check = Made.Check(Made.Value(0.05, 0.005), Made.Value(0.10, 0.005), Made.Value(0.05, 0.005));
        var shop = new Stock([], [new(Made.Marked(2.55), 8), new(Made.Marked(2.50), 8)]);
        ShimPlan plan = Planner.Plan(new PlanRequest(check, [.. Enumerable.Repeat(Made.Marked(2.60), 3)], shop)).Chosen;

        Assert.Equal([(2.50, 2), (2.55, 1)], plan.Bought.Select(b => (b.Thickness.Millimetres, b.Count)));
    }

    [Fact]
    public void Plan_SizeOfferedTwice_TakesTheCheaper()
    {
        EngineCheck check = Made.Check(Made.Value(0.05, 0.005));
        var shop = new Stock([], [new(Made.Marked(2.50), 12), new(Made.Marked(2.50), 7)]);
        ShimPlan plan = Planner.Plan(new PlanRequest(check, [Made.Marked(2.60)], shop)).Chosen;

        // Redo, and the change once more: 3 for the swap and 7 for the shim.
        Assert.Equal((60 + 3 + 7) * (1 - plan.Valves[0].Chance!.Value), plan.ToComeMinutes, 1e-9);
        Assert.Equal(3 + 7, plan.WorkMinutes, 1e-9);
    }

    [Fact]
    public void Plan_GroupThatNothingNeeds_StaysShutThoughItMayHaveToBeLiftedLater()
    {
        Valve[] valves = [Made.Valve("I1", access: "intake cam"), Made.Valve("E1", ValveSide.Exhaust, "exhaust cam")];
        EngineCheck check = new(Made.Engine(valves), [Made.Value(0.05, 0.005), Made.Value(0.15, 0.005)]);
        var costs = new PlanCosts(redo: 60, access: new Dictionary<string, double> { ["intake cam"] = 25, ["exhaust cam"] = 40 });
        var request = new PlanRequest(check, [Made.Marked(2.60), Made.Marked(2.60)], new Stock([new(Made.Marked(2.50), 1)], []), costs);
        ShimPlan plan = Planner.Plan(request).Chosen;

        Assert.Equal(["intake cam"], plan.Opened);
        (double intake, double exhaust) = (plan.Valves[0].Chance!.Value, plan.Valves[1].Chance!.Value);
        Assert.Equal(25 + 3, plan.WorkMinutes, 1e-9);
        Assert.Equal((60 * (1 - (intake * exhaust))) + (25 * (1 - intake)) + (40 * (1 - exhaust)), plan.ToComeMinutes, 1e-9);
    }

    [Fact]
    public void ChanceAll_EveryValveStranded_IsOne()
    {
        EngineCheck check = Made.Check(Made.Value(0.02, 0.005), Made.Value(0.03, 0.005), Made.Value(0.04, 0.005));
        ShimPlan plan = Planner.Plan(new PlanRequest(check, [.. Enumerable.Repeat(Made.Marked(2.60), 3)])).Chosen;

        Assert.Equal(3, plan.Stranded.Count);
        Assert.Equal(1.0, plan.ChanceAll, 1e-12);
    }

    [Fact]
    public void ChanceAll_ValvesThatShareALoss_IsAboveTheProductOfTheirChances()
    {
        // Nothing was read: what one valve has lost the others have lost too.
        EngineCheck check = Made.Check([.. Enumerable.Repeat(ValveReadings.None, 8)]);
        var request = new PlanRequest(check, [.. Enumerable.Repeat(Made.Marked(2.60), 8)], rules: new PlanRules(keepFloor: 0));
        ShimPlan plan = Planner.Plan(request).Chosen;

        double product = plan.Valves.Aggregate(1.0, (p, v) => p * v.Chance!.Value);
        Assert.True(plan.ChanceAll > 1.5 * product, $"{plan.ChanceAll} against {product}");
        Assert.True(plan.ChanceAll < plan.Valves[0].Chance);
    }
}
