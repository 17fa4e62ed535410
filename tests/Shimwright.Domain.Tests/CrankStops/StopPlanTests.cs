using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.CrankStops;

public class StopPlanTests
{
    [Fact]
    public void For_InlineFour_IsTwoStopsAFullTurnApart()
    {
        CrankLayout layout = MadeLayout.Of([1, 3, 4, 2], ramp: 0);
        Assert.Equal(
            ["0 after 0: I1 130, E1 130, E3 170, I2 170", "360 after 360: I3 170, I4 130, E4 130, E2 170"],
            StopPlan.For(layout, anywhere: false).Words(layout));
    }

    [Fact]
    public void For_Ramp_TakesAsMuchFromEverySlack()
    {
        CrankLayout layout = MadeLayout.Of([1, 3, 4, 2], ramp: 25);
        Assert.Equal(
            ["0 after 0: I1 105, E1 105, E3 145, I2 145", "360 after 360: I3 145, I4 105, E4 105, E2 145"],
            StopPlan.For(layout, anywhere: false).Words(layout));
    }

    // Intake on its heel from -130 to 350, exhaust from -350 to 130: between -130 and 130 both are, and 0 is the middle.
    [Fact]
    public void For_SingleAnywhere_IsTheMiddleOfBothHeels()
    {
        CrankLayout layout = MadeLayout.Single(0, MadeLayout.Valve(1, ValveSide.Intake), MadeLayout.Valve(1, ValveSide.Exhaust));
        Assert.Equal(["0 after 0: I1 130, E1 130"], StopPlan.For(layout, anywhere: true).Words(layout));
    }

    [Fact]
    public void For_EventsOfOneValve_StandInForThoseOfItsSide()
    {
        CrankLayout layout = MadeLayout.Single(
            20, MadeLayout.Valve(1, ValveSide.Intake), MadeLayout.Valve(1, ValveSide.Intake, new CamEvents(28, 71)) with { Id = "long" });
        Assert.Equal(["0 after 0: I1 110, long 89"], StopPlan.For(layout, anywhere: false).Words(layout));
    }

    // A decompressor lifts the exhaust valve for 40 degrees about compression TDC: there it must not be checked.
    [Fact]
    public void For_Decompressor_KeepsTheValveFromItsDeadCentre()
    {
        TimedValve intake = MadeLayout.Valve(1, ValveSide.Intake);
        TimedValve exhaust = MadeLayout.Valve(1, ValveSide.Exhaust, null, new OffHeel(-20, 40));
        CrankLayout layout = MadeLayout.Single(10, intake, exhaust);
        Assert.Equal([1], StopPlan.ServedByNoMark(layout));
        Assert.Null(StopPlan.For(layout, anywhere: false));

        // Free are 30 to 120 and 380 to 690 for the exhaust, -120 to 340 for the intake: 30 to 120 and 600 to 690 for both.
        Assert.Equal(["75 after 75: I1 195, E1 45"], StopPlan.For(layout, anywhere: true).Words(layout));
        CrankLayout marked = new([1], null, [intake, exhaust], 10, [60, -75]);
        Assert.Equal(["645 after 645: I1 45, E1 45"], StopPlan.For(marked, anywhere: false).Words(marked));
    }

    // An exhaust valve that is shut before the dead centre of the gas exchange, and lifted by a decompressor at that of compression: 330 to 700 are free.
    [Fact]
    public void For_OnItsHeelAtTheOtherDeadCentreAlone_IsServedThere()
    {
        CrankLayout layout = MadeLayout.Single(0, MadeLayout.Valve(1, ValveSide.Exhaust, new CamEvents(50, -30), new OffHeel(-20, 40)));
        Assert.Empty(StopPlan.ServedByNoMark(layout));
        Assert.Equal(["360 after 360: E1 30"], StopPlan.For(layout, anywhere: false).Words(layout));
    }

    [Fact]
    public void For_ValveAtTheVeryEndOfItsHeel_CountsWithNoSlack()
    {
        CrankLayout layout = MadeLayout.Single(20, MadeLayout.Valve(1, ValveSide.Intake, null, new OffHeel(20, 100)), MadeLayout.Valve(1, ValveSide.Exhaust));
        Assert.Empty(StopPlan.ServedByNoMark(layout));
        Assert.Equal(["0 after 0: I1 0, E1 110"], StopPlan.For(layout, anywhere: false).Words(layout));
    }

    [Fact]
    public void For_ValveJustOffItsHeel_HasNoMark()
    {
        CrankLayout layout = MadeLayout.Single(20, MadeLayout.Valve(1, ValveSide.Intake, null, new OffHeel(19.999, 100)), MadeLayout.Valve(1, ValveSide.Exhaust));
        Assert.Equal([0], StopPlan.ServedByNoMark(layout));
        Assert.Null(StopPlan.For(layout, anywhere: false));
    }

    [Fact]
    public void For_HeelsThatTouch_ShareTheStopWhereTheyDo()
    {
        TimedValve first = MadeLayout.Valve(1, ValveSide.Intake, null, new OffHeel(590, 230), new OffHeel(200, 150));
        TimedValve second = MadeLayout.Valve(1, ValveSide.Intake, null, new OffHeel(590, 330), new OffHeel(300, 50)) with { Id = "I2" };
        CrankLayout layout = MadeLayout.Single(0, first, second);
        Assert.Equal(["200 after 200: I1 0, I2 0"], StopPlan.For(layout, anywhere: true).Words(layout));
    }

    [Fact]
    public void For_EqualSlackAtTwoStops_ListsTheEarlier()
    {
        // On its heel from -200 to 60 and from 160 to 420: 60 degrees to the nearer end at both dead centres.
        TimedValve alike = MadeLayout.Valve(1, ValveSide.Intake, new CamEvents(-60, -20), new OffHeel(60, 100)) with { Id = "alike" };
        CrankLayout layout = new(
            [1, 2], [0, 360], [MadeLayout.Valve(2, ValveSide.Intake), alike, MadeLayout.Valve(1, ValveSide.Intake)], 0);
        Assert.Equal(["0 after 0: alike 60, I1 130", "360 after 360: I2 130"], StopPlan.For(layout, anywhere: false).Words(layout));
    }

    [Fact]
    public void For_ValveThatIsNeverClosed_HasNoPlan()
    {
        CrankLayout layout = MadeLayout.Single(150, MadeLayout.Valve(1, ValveSide.Intake, new CamEvents(180, 120)));
        Assert.Empty(layout.HeelOf(layout.Valves[0]));
        Assert.Equal([0], StopPlan.ServedByNoMark(layout));
        Assert.Null(StopPlan.For(layout, anywhere: true));
    }

    [Fact]
    public void For_SixtyFourValves_FindsAPlaceForEach()
    {
        int[] order = [.. Enumerable.Range(1, 16)];
        CrankLayout layout = MadeLayout.Of(order, [.. MadeLayout.TwoEach(order), .. MadeLayout.TwoEach(order)]);
        StopPlan plan = StopPlan.For(layout, anywhere: true)!;
        Assert.Equal(2, plan.Stops.Count);
        Assert.Equal(Enumerable.Range(0, 64), plan.Stops.SelectMany(s => s.Valves.Select(v => v.Valve)).Order());
    }

    [Fact]
    public void For_SixtyFiveValves_IsRefused()
    {
        TimedValve[] valves = [.. Enumerable.Repeat(MadeLayout.Valve(1, ValveSide.Intake), 65)];
        Assert.Throws<ArgumentOutOfRangeException>(() => StopPlan.For(MadeLayout.Single(20, valves), anywhere: true));
    }
}
