using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Tests.Wording;

public class StrandedWordsTests
{
    private static readonly ValveReadings Tight = PlannedLine.Read(0.05, 0.005);
    private static readonly ValveReadings Right = PlannedLine.Read(0.15, 0.005);

    [Fact]
    public void Of_NothingAtHand_NamesTheWantedThickness() =>
        Assert.Equal(
            "it would want about 2.50 mm; there is nothing in the drawer and nothing to buy",
            Why(Stock.Nothing, (Tight, 2.60)));

    [Fact]
    public void Of_EmptyBoxInTheDrawer_IsNothingInTheDrawer() =>
        Assert.Equal(
            "it would want about 2.50 mm; there is nothing in the drawer and nothing to buy",
            Why(new Stock([new(PlannedLine.Marked(2.50), 0)], []), (Tight, 2.60)));

    [Fact]
    public void Of_NothingThatFits_NamesTheRangeOverDrawerShopAndEngine() =>
        Assert.Equal(
            "it would want about 2.50 mm; what can be had runs from 2.20 to 2.85 mm, and none of it would do",
            Why(
                new Stock([new(PlannedLine.Marked(2.75), 1)], [new(PlannedLine.Marked(2.85), 8)]),
                (Tight, 2.60), (Right, 2.20)));

    [Fact]
    public void Of_TheOnlyShimIsTaken_NamesWhoTakesIt() =>
        Assert.Equal(
            "it would want about 2.48 mm; I2 takes the 2.50 from the drawer",
            Why(PlannedLine.Drawer(2.50), (PlannedLine.Read(0.03, 0.005), 2.60), (Tight, 2.60)));

    [Fact]
    public void Of_TheOnlyShimGoesFromOneValveToAnother_NamesBothEnds()
    {
        string why = Why(PlannedLine.Drawer(2.40), (PlannedLine.Read(0.03, 0.005), 2.60), (Tight, 2.60), (Tight, 2.50));
        Assert.StartsWith("it would want about 2.48 mm; I2 takes the 2.50 from ", why, StringComparison.Ordinal);
        Assert.EndsWith("I3", why, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_ShimsOfOneSizeInSeveralPlaces_NamesThemAll() =>
        Assert.Equal(
            "it would want about 2.50 mm; I2 keeps its 2.50, I3 keeps its 2.50",
            Why(Stock.Nothing, (Tight, 2.60), (Right, 2.50), (Right, 2.50)));

    [Fact]
    public void Of_SeveralSizes_NamesEachOnce()
    {
        ShimHolder keeps = new(1, Keeps: true, null), takes = new(0, Keeps: false, 1);
        var reason = new SizesTaken(2.5049, [new(2.5, [keeps, takes]), new(2.525, [keeps])]);
        Assert.Equal(
            "it would want about 2.50 mm; I2 keeps its 2.50, I1 takes the 2.50 from I2; I2 keeps its 2.525",
            StrandedWords.Of(reason, Engine(2), LengthWords.Millimetres));
    }

    [Fact]
    public void Of_BandTooNarrowForAScrew_NamesWidthAndFloor()
    {
        var reason = new BandTooNarrow(0.01, 0.5);
        Assert.Equal(
            "a screw set by feel lands in a band 0.010 mm wide too rarely for the floor of 0.50",
            StrandedWords.Of(reason, Engine(1), LengthWords.Millimetres));
    }

    [Fact]
    public void Of_OtherUnit_WritesLengthsInIt() =>
        Assert.Equal(
            "it would want about 98.4 thou; what can be had runs from 86.6 to 112.2 thou, and none of it would do",
            StrandedWords.Of(new NoSizeWouldDo(2.5, 2.2, 2.85), Engine(1), new LengthStyle(LengthUnit.Thou).Words));

    private static string Why(Stock stock, params (ValveReadings Reading, double Fitted)[] valves)
    {
        ShimPlan plan = PlannedLine.Plan(PlannedLine.Bucket, stock, valves);
        return StrandedWords.Of(Assert.Single(plan.Stranded, s => s.Valve == 0).Reason, Engine(valves.Length), LengthWords.Millimetres);
    }

    private static Engine Engine(int valves) => new("Loaner", PlannedLine.Bucket, PlannedLine.ValvesOf(valves));
}
