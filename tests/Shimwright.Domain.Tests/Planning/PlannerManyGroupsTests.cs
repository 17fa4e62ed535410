using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

public class PlannerManyGroupsTests(ITestOutputHelper output)
{
    private const double Agreement = 1e-6;

    [Theory]
    [InlineData(1, 16, 1)]
    [InlineData(2, 14, 2)]
    [InlineData(3, 20, 3)]
    [InlineData(4, 32, 2)]
    [InlineData(5, 64, 1)]
    [InlineData(6, 16, 4)]
    public void Plan_ManyGroupsAndAShop_FindsTheHullOfTheGroupsTakenApart(int seed, int groups, int valvesEach) =>
        AgreesWithTheGroupsTakenApart(ManyGroups.Draw(seed, groups, valvesEach), $"{groups} x {valvesEach}");

    [Theory]
    [InlineData(11, 16, 1)]
    [InlineData(12, 14, 2)]
    public void Plan_ManyGroupsAndAFewShimsInTheDrawer_FindsTheHullOverAllWaysToGiveThemOut(int seed, int groups, int valvesEach) =>
        AgreesWithTheGroupsTakenApart(
            ManyGroups.Draw(
                seed, groups, valvesEach, new DrawerShims(Made.Measured(2.52), 1), new DrawerShims(Made.Measured(2.54), 1)),
            $"{groups} x {valvesEach} and two shims");

    private void AgreesWithTheGroupsTakenApart(PlanRequest request, string name)
    {
        EngineEstimate estimate = Made.EstimateFor(request);
        NoValveCanUseAnothersShim(request, estimate);
        List<(double NegLogChance, double Minutes)> hull = ManyGroups.Hull(request, estimate);
        PlanChoice choice = Planner.Plan(request);

        HullAssert.SameCorners(
            hull,
            [.. choice.Alternatives.Select(p => PlanOutcome.Of(p, request)).Select(o => (o.NegLogChance, o.Minutes))],
            Agreement,
            name);
        double second = request.SecondRound;
        Assert.Equal(hull.Min(h => (second * -double.ExpM1(-h.NegLogChance)) + h.Minutes), choice.Chosen.Minutes, Agreement);
        Assert.All(choice.Alternatives, plan => PlanAssert.CanBeCarriedOut(plan, request, estimate));

        var search = new PlanSearch(request, new OptionTable(request, estimate));
        var fresh = new PlanHull(request, search);
        output.WriteLine($"{name}: {fresh.Corners.Count} corners, {search.Nodes} nodes");
    }

    /// <summary>The oracle's premise: fitting a valve with what another carries is no use.</summary>
    private static void NoValveCanUseAnothersShim(PlanRequest request, EngineEstimate estimate)
    {
        double error = request.Rules.Seating.ChangeUncertainty(request.Fitted[0].Minus(request.Fitted[0]).Uncertainty);
        foreach (ClearanceDistribution clearance in estimate.Valves)
        {
            double swapped = clearance.InBandAfter(ClearanceChange.By(0, error));
            Assert.True(swapped < request.Rules.FitFloor || swapped < clearance.InBand, "The engine is not fit for this test.");
        }
    }
}
