using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Wear;
using Xunit;

namespace Shimwright.Domain.Tests.Wear;

public class SmallRulesTests
{
    [Fact]
    public void UsualWear_Card_GivesRatePerUnitOfTheClock()
    {
        var wear = new UsualWear(6000, 0.03, 0.012);
        Assert.Equal(0.03 / 6000, wear.RateOf(ValveSide.Exhaust).Mean, 1e-18);
        Assert.Equal(0.012 / 6000, wear.RateOf(ValveSide.Intake).StandardDeviation, 1e-18);
        Assert.Equal(0.005 * 0.005 / 6000, wear.Diffusion, 1e-18);
        Assert.Equal(1, wear.With(ValveSide.Intake, new RateDistribution(1, 2)).RateOf(ValveSide.Intake).Mean);
        Assert.Equal(0.03 / 6000, wear.With(ValveSide.Intake, new RateDistribution(1, 2)).RateOf(ValveSide.Exhaust).Mean, 1e-18);
        Refuses.NotANumber("interval", x => new UsualWear(x));
        Refuses.NotANumber("lossPerInterval", x => new UsualWear(30, x));
        Assert.Throws<ArgumentOutOfRangeException>("spread", () => new RateDistribution(0, -1));
    }

    [Fact]
    public void Usual_SidesThatWearDifferently_AreEachForeseenAsItself()
    {
        UsualWear wear = new UsualWear(30, 0.01, 0.004).With(ValveSide.Exhaust, new RateDistribution(0.001, 0.0002));
        WearHorizon horizon = WearHorizon.Usual(Made.Engine(Made.Valve(), Made.Valve("E1", ValveSide.Exhaust)), wear, 60);
        Assert.Equal([0.01 / 30, 0.001], horizon.Rates.Select(r => r.Mean));
        Assert.Equal([0.004 / 30, 0.0002], horizon.Rates.Select(r => r.StandardDeviation));
    }

    /// <summary>
    /// Sixteen valves of a band of 0.06 with every gap in its middle, known exactly: a chance of 0.05 that one is out when the maker's
    /// interval ends. 0.0454 is a plain sum over 4,001 rates with the formula of the guide. Common practice, no source.
    /// </summary>
    [Fact]
    public void UsualWear_SixteenValvesInTheMiddle_AreOutAtTheIntervalWithAChanceOfOneInTwenty()
    {
        Engine sixteen = Made.Engine([.. Enumerable.Range(0, 16).Select(v => Made.Valve($"V{v}"))]);
        var usual = new UsualWear(30);
        WearState[] middle = [.. sixteen.Valves.Select(v => WearState.At(v.Band.Middle, 1e-14, usual.RateOf(v.Side)))];
        var check = new WearCheck(0, new(sixteen, sixteen.Valves.Select(_ => ValveReadings.None)));
        EngineForecast forecast = EngineForecast.Of(WearFilter.Follow(middle, [check], usual));
        Assert.Equal(0.0454, forecast.RiskAt(30), 5e-4);
        Assert.Equal(30, forecast.CheckBy);
    }

    [Fact]
    public void RoomLeft_OfAShim_LastsAsLongAsItsThicknessAtTheGap()
    {
        RoomLeft room = RoomLeft.Of(2.5, 2.2, new Leverage(1.5), 0.001);
        Assert.Equal(0.3, room.Millimetres, 1e-12);
        Assert.Equal(450, room.Time!.Value, 1e-9);
        Assert.Equal(0, RoomLeft.Of(2.1, 2.2, new Leverage(1.5), 0.001).Millimetres);
        Assert.Null(RoomLeft.Of(2.5, 2.2, new Leverage(1), -0.001).Time);
    }

    [Fact]
    public void Stock_Thinnest_LooksAtWhatIsThere()
    {
        Assert.Null(Stock.Nothing.Thinnest);
        var stock = new Stock([new DrawerShims(Made.Marked(1.8), 0), new DrawerShims(Made.Marked(2.1), 1)], [new PurchasableSize(Made.Marked(2), 1)]);
        Assert.Equal(2, stock.Thinnest);
    }

    [Fact]
    public void Recession_WithAndWithoutThicknesses_CountsShimsAndClearance()
    {
        WearCheck Check(double clock, double value, double? fitted, params Adjustment[] changes) => new(
            clock, new(Kept.Single, [Made.Value(value)]), [fitted is { } f ? Made.Measured(f) : null], changes);
        EngineWear found = WearFilter.Follow([Check(0, 0.16, 2.6), Check(30, 0.11, 2.6, Kept.Shim(2.6, 2.55)), Check(60, 0.13, 2.55)], Kept.Wear);
        EngineWear changed = WearFilter.Follow([Check(0, 0.16, null), Check(30, 0.11, null, Kept.Shim(2.6, 2.55)), Check(60, 0.13, null)], Kept.Wear);
        double expected = 0.05 + found.Valves[0][0].Found.Clearance - found.Valves[0][^1].Found.Clearance;
        Assert.Equal(expected, found.RecessionOf(0)!.Value, 1e-12);
        Assert.Equal(expected, changed.RecessionOf(0)!.Value, 1e-12);
        Assert.Equal(0.08, expected, 0.02);
        Assert.Null(WearFilter.Follow([Check(0, 0.16, 2.6)], Kept.Wear).RecessionOf(0));
    }

    [Fact]
    public void Forecast_RiskThatIsThereOrNeverComes_IsNowOrTheInterval()
    {
        EngineWear tight = WearFilter.Follow([Kept.Check(40, Made.Value(0.11, 0.003))], Kept.Wear);
        Assert.Equal(40, EngineForecast.Of(tight).CheckBy);
        EngineWear wide = WearFilter.Follow([Kept.Check(40, Made.Value(0.17, 0.002))], new UsualWear(30, 0.01, 0.002));
        Assert.Equal(70, EngineForecast.Of(wide).CheckBy);
        EngineForecast between = EngineForecast.Of(WearFilter.Follow([Kept.Check(40, Made.Value(0.145, 0.004))], Kept.Wear));
        Assert.InRange(between.CheckBy, 41, 69);
        Assert.Equal(0.1, between.RiskAt(between.CheckBy), 1e-6);
        Assert.Equal(between.Valves[0].ChanceOutAtInterval, between.RiskAt(70), 1e-12);
        Refuses.NotANumber("risk", x => EngineForecast.Of(tight, x));
    }
}
