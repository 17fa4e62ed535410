using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

public class StrandedReasonTests
{
    private static readonly ValveReadings Tight = Made.Value(0.05, 0.005);
    private static readonly ValveReadings Right = Made.Value(0.15, 0.005);

    [Fact]
    public void Why_NothingAtHand_NamesTheWantedThickness() =>
        Assert.Equal(
            "it would want about 2.50 mm; there is nothing in the drawer and nothing to buy",
            Why(Stock.Nothing, (Tight, 2.60)));

    [Fact]
    public void Why_EmptyBoxInTheDrawer_IsNothingInTheDrawer() =>
        Assert.Equal(
            "it would want about 2.50 mm; there is nothing in the drawer and nothing to buy",
            Why(new Stock([new(Made.Marked(2.50), 0)], []), (Tight, 2.60)));

    [Fact]
    public void Why_NothingThatFits_NamesTheRangeOverDrawerShopAndEngine() =>
        Assert.Equal(
            "it would want about 2.50 mm; what can be had runs from 2.20 to 2.85 mm, and none of it would do",
            Why(
                new Stock([new(Made.Marked(2.75), 1)], [new(Made.Marked(2.85), 8)]),
                (Tight, 2.60), (Right, 2.20)));

    [Fact]
    public void Why_TheOnlyShimIsTaken_NamesWhoTakesIt() =>
        Assert.Equal(
            "it would want about 2.48 mm; I2 takes the 2.50 from the drawer",
            Why(new Stock([new(Made.Marked(2.50), 1)], []), (Made.Value(0.03, 0.005), 2.60), (Tight, 2.60)));

    [Fact]
    public void Why_TheOnlyShimGoesFromOneValveToAnother_NamesBothEnds()
    {
        string why = Why(
            new Stock([new(Made.Marked(2.40), 1)], []), (Made.Value(0.03, 0.005), 2.60), (Tight, 2.60), (Tight, 2.50));
        Assert.StartsWith("it would want about 2.48 mm; I2 takes the 2.50 from ", why, StringComparison.Ordinal);
        Assert.EndsWith("I3", why, StringComparison.Ordinal);
    }

    [Fact]
    public void Why_TheOnlyShimIsInAValveThatKeepsIt_NamesThatValve() =>
        Assert.Equal(
            "it would want about 2.50 mm; I2 keeps its 2.50",
            Why(Stock.Nothing, (Tight, 2.60), (Right, 2.50)));

    [Fact]
    public void Why_ShimsOfOneSizeInSeveralPlaces_NamesThemAll() =>
        Assert.Equal(
            "it would want about 2.50 mm; I2 keeps its 2.50, I3 keeps its 2.50",
            Why(Stock.Nothing, (Tight, 2.60), (Right, 2.50), (Right, 2.50)));

    [Fact]
    public void Why_FingerFollower_CountsTheRatio()
    {
        var train = new Valvetrain(Adjuster.FingerFollower, 1.5);
        EngineCheck check = new(Made.Engine(train, Made.Valve()), [Tight]);
        StrandedValve stranded = Assert.Single(Planner.Plan(new PlanRequest(check, [Made.Marked(2.60)])).Chosen.Stranded);
        Assert.StartsWith("it would want about 2.53 mm;", stranded.Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Plan_OneValveStranded_StillPlansTheRest()
    {
        // The first wants 2.30, which nobody has; the second wants 2.50, which lies in the drawer.
        var request = Request(new Stock([new(Made.Marked(2.50), 1)], []), (Tight, 2.40), (Tight, 2.60));
        ShimPlan plan = Planner.Plan(request).Chosen;

        Assert.Equal([0], plan.Stranded.Select(s => s.Valve));
        Assert.Equal(ValveAction.Fit, plan.Valves[1].Action);
        Assert.Equal(plan.Valves[1].Chance!.Value, plan.ChanceAll, 1e-3);
        Assert.Equal((90 * (1 - plan.Valves[1].Chance!.Value)) + 3, plan.Minutes, 1e-9);
    }

    [Fact]
    public void Plan_StrandedValve_KeepsItsShimFromOthers()
    {
        // The first is stranded and carries the very shim that the second wants; its shim is not free.
        PlanRequest request = Request(Stock.Nothing, (Tight, 2.50), (Tight, 2.60));
        ShimPlan plan = Planner.Plan(request).Chosen;

        Assert.Equal([0, 1], plan.Stranded.Select(s => s.Valve));
        Assert.Equal("it would want about 2.50 mm; I1 keeps its 2.50", plan.Stranded[1].Why);
    }

    private static string Why(Stock stock, params (ValveReadings Reading, double Fitted)[] valves)
    {
        ShimPlan plan = Planner.Plan(Request(stock, valves)).Chosen;
        return Assert.Single(plan.Stranded, s => s.Valve == 0).Why;
    }

    private static PlanRequest Request(Stock stock, params (ValveReadings Reading, double Fitted)[] valves) =>
        new(Made.Check([.. valves.Select(v => v.Reading)]), [.. valves.Select(v => Made.Marked(v.Fitted))], stock);
}
