using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Tests.Fitting;

/// <summary>A sheet of two valves whose plan changes E1 alone; the shop's drawer has what each test says.</summary>
public class DrawerUseTests
{
    [Fact]
    public void Promised_NoPlanOrNoShop_IsNothing()
    {
        Assert.Empty(DrawerUse.Promised(Ledger.ShimsMeasured().Sheet));
        Assert.Empty(DrawerUse.Promised(Ledger.ShimsPlanned().Sheet));
    }

    [Fact]
    public void Promised_PlanFromTheShop_IsItsShimUntilTheJobIsClosed()
    {
        (Ledger ledger, PlanRow row) = FromShop();
        Assert.Equal([new ShimsPromised(row.To!.Thickness, "micrometer", 1, 0)], DrawerUse.Promised(ledger.Sheet));
        Assert.Empty(DrawerUse.Exchanges(ledger.Sheet));
        ledger.TickAll();
        ledger.Add(new ShimFitted("E1", new(2.75, "micrometer"), new(row.To.Thickness, "micrometer")));
        Assert.Equal([new ShimsPromised(row.To.Thickness, "micrometer", 1, 1)], DrawerUse.Promised(ledger.Sheet));
        ledger.Add(new JobClosed(120, "", "", ""));
        Assert.Empty(DrawerUse.Promised(ledger.Sheet));
    }

    /// <summary>Two valves take the same size: what is promised goes out of the drawer valve by valve.</summary>
    [Fact]
    public void Promised_OneOfTwoOfASizeFitted_CountsThatOne()
    {
        Ledger ledger = Ledger.ShimsMeasured();
        ShimsAtHand[] drawer = [new(2.70, "micrometer", 2)];
        ledger.Add(new StockStated(drawer, []));
        PlanAccepted plan = ledger.ItsPlan();
        PlanRow e1 = Assert.Single(plan.Changes);
        ledger.Add([
            new StockStated(drawer, [], FromShop: true),
            plan with { Valves = [.. plan.Valves.Select(v => v.Valve == e1.Valve ? v : e1 with { Valve = v.Valve })] },
        ]);
        ledger.Add(new ShimFitted("E1", new(2.75, "micrometer"), new(2.70, "micrometer")));
        Assert.Equal([new ShimsPromised(2.70, "micrometer", 2, 1)], DrawerUse.Promised(ledger.Sheet));
    }

    [Fact]
    public void Exchanges_PlannedShimMeasuredALittleOff_IsTakenUnderTheSizeItLayAs()
    {
        (Ledger ledger, PlanRow row) = FromShop();
        ledger.TickAll();
        ledger.Add(new ShimFitted("E1", new(2.748, "micrometer"), new(row.To!.Thickness - 0.004, "calliper")));
        ShimExchange exchange = Assert.Single(DrawerUse.Exchanges(ledger.Sheet));
        Assert.Equal(new ShimExchange("E1", new(row.To.Thickness, "micrometer"), new(2.748, "micrometer")), exchange);
    }

    [Fact]
    public void Exchanges_AnotherShimThanPlanned_IsTakenAsItself()
    {
        (Ledger ledger, PlanRow row) = FromShop();
        ledger.TickAll();
        ledger.Add(new ShimFitted("E1", new(2.75, "micrometer"), new(row.To!.Thickness - 0.05, "micrometer")));
        Assert.Equal(new(row.To.Thickness - 0.05, "micrometer"), Assert.Single(DrawerUse.Exchanges(ledger.Sheet)).Taken);
        Assert.Equal([new ShimsPromised(row.To.Thickness, "micrometer", 1, 1)], DrawerUse.Promised(ledger.Sheet));
    }

    [Fact]
    public void Exchanges_BoughtForTheJob_TakesNothingAndLeavesTheOldOne()
    {
        Ledger ledger = Ledger.ShimsMeasured();
        ledger.Add(new StockStated([], [new(2.5, 2.9, 0.05, 8)]));
        ledger.Add(ledger.ItsPlan());
        ledger.TickAll();
        ledger.Add(new ShimFitted("E1", new(2.75, "micrometer"), new(2.70, "marked")));
        Assert.NotEqual("drawer", Assert.Single(ledger.Sheet.Plan!.Changes).To!.Source);
        Assert.Equal([new ShimExchange("E1", null, new(2.75, "micrometer"))], DrawerUse.Exchanges(ledger.Sheet));
    }

    /// <summary>What was bought, fitted dry and taken out again was paid for and lies in the drawer.</summary>
    [Fact]
    public void Exchanges_BoughtAndTakenOutAgain_LeavesItOver()
    {
        Ledger ledger = Ledger.ShimsMeasured();
        ledger.Add(new StockStated([], [new(2.5, 2.9, 0.05, 8)]));
        ledger.Add(ledger.ItsPlan());
        double bought = Assert.Single(ledger.Sheet.Plan!.Changes).To!.Thickness;
        ledger.Add(new ShimFitted("E1", new(2.75, "micrometer"), new(bought + 0.004, "micrometer")));
        Assert.Single(DrawerUse.Exchanges(ledger.Sheet));
        ledger.Add(new ShimFitted("E1", new(bought + 0.004, "micrometer"), new(2.60, "micrometer")));
        Assert.Equal([new(2.75, "micrometer"), new(bought + 0.004, "micrometer")], DrawerUse.Exchanges(ledger.Sheet).Select(e => e.CameOut!));
    }

    [Fact]
    public void Exchanges_FromAnotherValve_TakesNothingFromTheDrawer()
    {
        Ledger ledger = Ledger.ShimsMeasured();
        ledger.Add(new StockStated([], [new(2.5, 2.9, 0.05, 8)]));
        PlanAccepted plan = ledger.ItsPlan();
        ledger.Add(plan with { Valves = [.. plan.Valves.Select(v => v.To is null ? v : v with { To = v.To with { Source = "engine", FromValve = "I1" } })] });
        ledger.TickAll();
        ledger.Add(new ShimFitted("E1", new(2.75, "micrometer"), new(2.70, "marked")));
        Assert.Null(Assert.Single(DrawerUse.Exchanges(ledger.Sheet)).Taken);
    }

    [Fact]
    public void Exchanges_HandedOnToAnotherValve_IsNotPutIntoTheDrawer()
    {
        Ledger ledger = Ledger.ShimsMeasured();
        ledger.Add(new StockStated([], [new(2.5, 2.9, 0.05, 8)]));
        PlanAccepted plan = ledger.ItsPlan();
        ledger.Add(plan with { Valves = [.. plan.Valves.Select(v => v.To is null ? v : v with { To = v.To with { Source = "engine", FromValve = "I1" } })] });
        ledger.Add(new ShimFitted("I1", new(2.62, "micrometer"), new(2.50, "marked")));
        ledger.Add(new ShimFitted("E1", new(2.75, "micrometer"), new(2.62, "micrometer")));
        Assert.Equal(
            [new ShimExchange("I1", new(2.50, "marked"), null), new ShimExchange("E1", null, new(2.75, "micrometer"))], DrawerUse.Exchanges(ledger.Sheet));
    }

    [Fact]
    public void Exchanges_FittedWithoutAPlan_IsTakenAsItself()
    {
        Ledger ledger = Ledger.ShimsMeasured();
        ledger.Add(new ShimFitted("E1", new(2.75, "micrometer"), new(2.70, "marked")));
        Assert.Equal([new ShimExchange("E1", new(2.70, "marked"), new(2.75, "micrometer"))], DrawerUse.Exchanges(ledger.Sheet));
    }

    /// <summary>The shop has one shim of the size that E1 wants.</summary>
    private static (Ledger Ledger, PlanRow Row) FromShop()
    {
        Ledger ledger = Ledger.ShimsMeasured();
        ShimsAtHand[] drawer = [new(2.70, "micrometer", 1), new(2.40, "micrometer", 3)];
        ledger.Add(new StockStated(drawer, []));
        PlanAccepted plan = ledger.ItsPlan();
        // What the drawer had is written down with the accepting.
        ledger.Add([new StockStated(drawer, [], FromShop: true), plan]);
        PlanRow row = Assert.Single(ledger.Sheet.Plan!.Changes);
        Assert.Equal(("E1", "drawer"), (row.Valve, row.To!.Source));
        return (ledger, row);
    }
}
