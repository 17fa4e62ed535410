using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>
/// Where plans cost the same to the last minute, here nothing at all, the one that opens fewer covers is taken, then the one that changes less, then
/// the one that buys less. I1 is too tight and wants 2.60, which lies in I2 under the same cover and in E1 under another one.
/// </summary>
public class TiesTests
{
    private static readonly PlanCosts Nothing = new(redo: 0, swap: 0, minutesPerCurrency: 0, disturb: 0);

    /// <summary>Round three valves under one cover, or to and fro between two covers: three changes under one are taken.</summary>
    [Fact]
    public void Plan_SameCost_OpensFewerCoversThoughItChangesMore()
    {
        ShimPlan plan = Plan([Tight, Gives, Made.Valve("I3")], [Made.Value(0.06, 0.002), Made.Value(0.15, 0.002), Made.Value(0.15, 0.002)], [2.66, 2.60, 2.63], new Stock([], []), new PlanCosts(redo: 0, swap: 1, disturb: 0));
        Assert.Equal(["cover"], plan.Opened);
        Assert.Equal(3, plan.Valves.Count(v => v.Action == ValveAction.Fit));
    }

    /// <summary>One shim bought, or a second cover off: it is bought.</summary>
    [Fact]
    public void Plan_SameCost_OpensFewerCoversThoughItBuysMore()
    {
        ShimPlan plan = Plan([Tight, Gives], [Made.Value(0.06, 0.002), Made.Value(0.15, 0.002)], [2.66, 2.60], new Stock([], [new PurchasableSize(Made.Measured(2.63), 5)]), new PlanCosts(redo: 0, swap: 0, disturb: 0));
        Assert.Equal(["cover"], plan.Opened);
        Assert.Equal(1, plan.Bought.Sum(b => b.Count));
    }

    private static Valve Tight => Made.Valve("I1");

    private static Valve Gives => Made.Valve("I2");

    /// <summary>Besides these E1, whose band is wide: with 2.60 and with 2.66 it is in it. Where what is to tell costs something the other cover comes off too.</summary>
    private static ShimPlan Plan(Valve[] valves, ValveReadings[] readings, double[] fitted, Stock stock, PlanCosts dearer)
    {
        Valve wide = Made.Valve("E1", ValveSide.Exhaust, "exhaust cover", new ClearanceBand(0.10, 0.22));
        EngineCheck check = new(Made.Engine([.. valves, wide]), [.. readings, Made.Value(0.19, 0.002)]);
        Thickness[] shims = [.. fitted.Append(2.60).Select(f => Made.Measured(f))];
        Assert.Equal(2, Planner.Plan(new(check, shims, stock, dearer)).Chosen.Opened.Count);
        ShimPlan plan = Planner.Plan(new(check, shims, stock, Nothing)).Chosen;
        Assert.Empty(plan.Stranded);
        Assert.Equal(0, plan.Minutes, 1e-9);
        return plan;
    }
}
