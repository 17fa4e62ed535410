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
    public void Reason_NothingAtHand_HasTheWantedThickness()
    {
        Assert.Equal(2.50, Assert.IsType<NothingAtHand>(Reason(Stock.Nothing, (Tight, 2.60))).Wanted, 0.002);
        Assert.IsType<NothingAtHand>(Reason(new Stock([new(Made.Marked(2.50), 0)], []), (Tight, 2.60)));
    }

    [Fact]
    public void Reason_NothingThatFits_HasTheRangeOverDrawerShopAndEngine()
    {
        var stock = new Stock([new(Made.Marked(2.75), 1)], [new(Made.Marked(2.85), 8)]);
        NoSizeWouldDo reason = Assert.IsType<NoSizeWouldDo>(Reason(stock, (Tight, 2.60), (Right, 2.20)));
        Assert.Equal((2.20, 2.85), (reason.Thinnest, reason.Thickest));
        Assert.Equal(2.50, reason.Wanted, 0.002);
    }

    [Fact]
    public void Reason_TheOnlyShimIsTaken_HasWhoTakesIt()
    {
        SizeTaken size = OnlySize(new Stock([new(Made.Marked(2.50), 1)], []), (Made.Value(0.03, 0.005), 2.60), (Tight, 2.60));
        Assert.Equal(2.50, size.Thickness);
        Assert.Equal([new ShimHolder(1, Keeps: false, null)], size.Holders);
    }

    [Fact]
    public void Reason_TheOnlyShimGoesFromOneValveToAnother_HasBothEnds()
    {
        SizeTaken size = OnlySize(
            new Stock([new(Made.Marked(2.40), 1)], []), (Made.Value(0.03, 0.005), 2.60), (Tight, 2.60), (Tight, 2.50));
        Assert.Equal([new ShimHolder(1, Keeps: false, 2)], size.Holders);
    }

    [Fact]
    public void Reason_ShimsOfOneSizeInSeveralValvesThatKeepThem_HasThemAll() =>
        Assert.Equal(
            [new ShimHolder(1, Keeps: true, null), new ShimHolder(2, Keeps: true, null)],
            OnlySize(Stock.Nothing, (Tight, 2.60), (Right, 2.50), (Right, 2.50)).Holders);

    [Fact]
    public void Reason_SeveralSizesThatWouldDo_HasEach()
    {
        SizesTaken reason = Assert.IsType<SizesTaken>(Reason(Stock.Nothing, (Tight, 2.60), (Right, 2.50), (Right, 2.51)));
        Assert.Equal([2.50, 2.51], reason.Sizes.Select(s => s.Thickness));
    }

    [Fact]
    public void Reason_FingerFollower_CountsTheRatio()
    {
        var train = new Valvetrain(Adjuster.FingerFollower, 1.5);
        EngineCheck check = new(Made.Engine(train, Made.Valve()), [Tight]);
        ShimPlan plan = Planner.Plan(new PlanRequest(check, [Made.Marked(2.60)])).Chosen;
        double wanted = Assert.IsType<NothingAtHand>(Assert.Single(plan.Stranded).Reason).Wanted;
        Assert.Equal(2.60 - ((0.15 - plan.Valves[0].Estimate.Mean) / 1.5), wanted, 1e-12);
        Assert.Equal(wanted, plan.Valves[0].Wanted);
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
        Assert.Equal((60 * (1 - plan.Valves[1].Chance!.Value)) + 3, plan.Minutes, 1e-9);
    }

    [Fact]
    public void Plan_StrandedValve_KeepsItsShimFromOthers()
    {
        // The first is stranded and carries the very shim that the second wants; its shim is not free.
        PlanRequest request = Request(Stock.Nothing, (Tight, 2.50), (Tight, 2.60));
        ShimPlan plan = Planner.Plan(request).Chosen;

        Assert.Equal([0, 1], plan.Stranded.Select(s => s.Valve));
        SizeTaken size = Assert.Single(Assert.IsType<SizesTaken>(plan.Stranded[1].Reason).Sizes);
        Assert.Equal([new ShimHolder(0, Keeps: true, null)], size.Holders);
    }

    private static SizeTaken OnlySize(Stock stock, params (ValveReadings Reading, double Fitted)[] valves) =>
        Assert.Single(Assert.IsType<SizesTaken>(Reason(stock, valves)).Sizes);

    private static StrandedReason Reason(Stock stock, params (ValveReadings Reading, double Fitted)[] valves)
    {
        ShimPlan plan = Planner.Plan(Request(stock, valves)).Chosen;
        return Assert.Single(plan.Stranded, s => s.Valve == 0).Reason;
    }

    private static PlanRequest Request(Stock stock, params (ValveReadings Reading, double Fitted)[] valves) =>
        new(Made.Check([.. valves.Select(v => v.Reading)]), [.. valves.Select(v => Made.Marked(v.Fitted))], stock);
}
