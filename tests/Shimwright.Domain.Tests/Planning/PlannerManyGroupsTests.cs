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
    public void Plan_ManyGroupsAndAShop_IsTheBestOfTheGroupsTakenApart(int seed, int groups, int valvesEach) =>
        AgreesWithTheGroupsTakenApart(ManyGroups.Draw(seed, groups, valvesEach), $"{groups} x {valvesEach}");

    [Theory]
    [InlineData(11, 16, 1)]
    [InlineData(12, 14, 2)]
    public void Plan_ManyGroupsAndAFewShimsInTheDrawer_IsTheBestOverAllWaysToGiveThemOut(int seed, int groups, int valvesEach) =>
        AgreesWithTheGroupsTakenApart(
            ManyGroups.Draw(
                seed, groups, valvesEach, new DrawerShims(Made.Measured(2.52), 1), new DrawerShims(Made.Measured(2.54), 1)),
            $"{groups} x {valvesEach} and two shims");

    private void AgreesWithTheGroupsTakenApart(PlanRequest request, string name)
    {
        EngineEstimate estimate = Made.EstimateFor(request);
        PlanChoice choice = Planner.Plan(request, estimate);
        Assert.All(choice.Alternatives, plan => PlanAssert.CanBeCarriedOut(plan, request, estimate));
        Assert.Equal(ManyGroups.Least(request, estimate, 1), choice.Chosen.Minutes, Agreement);

        // The alternatives are the hull: at no rate is any plan better than the best of them.
        foreach (double rate in (double[])[0.02, 0.1, 0.3, 0.6, 0.8, 1.25, 2, 5, 20])
        {
            Assert.Equal(
                ManyGroups.Least(request, estimate, rate),
                choice.Alternatives.Min(p => p.WorkMinutes + (rate * p.ToComeMinutes)),
                Agreement * (1 + rate));
        }

        var search = new PlanSearch(request, new OptionTable(request, estimate));
        var hull = new PlanHull(search);
        output.WriteLine($"{name}: {hull.Corners.Count} corners, {search.Nodes} parts, {search.Assignments} assignments");
    }
}
