using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>Valves whose adjusters are reached without lifting anything: each stands for itself.</summary>
public class NoAccessTests
{
    [Fact]
    public void Groups_NothingToLift_AreOneForEachValve()
    {
        Engine engine = Made.Engine(Made.Valve("I1", access: "none"), Made.Valve("I2", access: "cover"), Made.Valve("I3", access: "none"), Made.Valve("I4", access: "cover"));
        Assert.Equal(["cover"], engine.AccessGroups);
        Assert.Equal(3, engine.Groups.Count);
        Assert.NotEqual(engine.Valves[0].Group, engine.Valves[2].Group);
        Assert.Equal("cover", engine.Valves[3].Group);
    }

    // I1 is tight and I2 in band, behind nothing: changing the one costs a swap, opens nothing and leaves the other as it is.
    [Fact]
    public void Plan_NothingToLift_OpensNothingAndLeavesTheOthersAlone()
    {
        Engine engine = Made.Engine(Made.Valve("I1", access: "none"), Made.Valve("I2", access: "none"));
        var check = new EngineCheck(engine, [Made.Value(0.05, 0.003), Made.Value(0.15, 0.003)]);
        ShimPlan plan = Planner.Plan(new PlanRequest(
            check, [Made.Measured(2.50), Made.Measured(2.60)], new Stock([new DrawerShims(Made.Measured(2.40), 1)], []), new PlanCosts(swap: 3))).Chosen;
        Assert.Equal([ValveAction.Fit, ValveAction.Keep], plan.Valves.Select(v => v.Action));
        Assert.Empty(plan.Opened);
        Assert.Equal(3, plan.WorkMinutes, 1e-9);
    }
}
