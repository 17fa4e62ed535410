using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

public class PlanSearchTests
{
    /// <summary>What a search of twelve groups may take; trying every set of opened groups takes four thousand nodes for each corner.</summary>
    private const int MostNodes = 1000;

    private static readonly ValveReadings Sure = Made.Value(0.152, 0.005);
    private static readonly ValveReadings LessDoubtful = Made.Value(0.132, 0.01);
    private static readonly ValveReadings Doubtful = Made.Value(0.125, 0.01);

    /// <summary>
    /// An engine whose cylinders all read the same is nothing rare. At a corner of the hull it is then equally good to
    /// open any of its groups, and a weak bound has to try them all.
    /// </summary>
    [Theory]
    [InlineData("one doubtful", 0)]
    [InlineData("one doubtful", 8)]
    [InlineData("both doubtful", 0)]
    [InlineData("both doubtful", 6)]
    [InlineData("both doubtful", 20)]
    [InlineData("one doubtful, one less so", 0)]
    [InlineData("one doubtful, one less so", 8)]
    public void Nodes_TwelveGroupsThatAreAlike_AreNotEverySetOfGroups(string group, int drawer)
    {
        ValveReadings first = group switch
        {
            "one doubtful" => Sure,
            "both doubtful" => Doubtful,
            _ => LessDoubtful,
        };
        PlanRequest request = Alike(12, first, drawer);
        var search = new PlanSearch(request, new OptionTable(request, Made.EstimateFor(request)));
        var hull = new PlanHull(request, search);
        Assert.True(hull.Corners.Count > 1);
        Assert.InRange(search.Nodes, 1, MostNodes);
    }

    [Fact]
    public void Corners_GroupsThatAreAlike_OpenAllOrNone()
    {
        PlanRequest request = Alike(6, Sure, 0);
        PlanChoice choice = Planner.Plan(request);
        Assert.Equal([0, 6], choice.Alternatives.Select(p => p.Opened.Count));
        Assert.Equal(
            ManyGroups.Hull(request, Made.EstimateFor(request)).Select(h => Math.Round(h.Minutes, 6)),
            choice.Alternatives.Select(p => Math.Round(PlanOutcome.Of(p, request).Minutes, 6)));
    }

    [Fact]
    public void Best_LambdaOrDoubtFirst_IsNoWorseThanAnyPlanOfTheHull()
    {
        PlanRequest request = Alike(4, LessDoubtful, 3);
        var search = new PlanSearch(request, new OptionTable(request, Made.EstimateFor(request)));
        PlanPoint[] corners = [.. new PlanHull(request, search).Corners];
        foreach (double lambda in (double[])[0, 1, 10, 50, 120, 1000])
        {
            ValveOption[] best = search.Best(Weighing.MinutesPerDoubt(lambda, search.Scale));
            double opened = best.Index().Where(c => c.Item.IsChange).Select(c => c.Index / 2).Distinct().Count() * 10;
            double cost = (lambda * best.Sum(o => o.NegLogChance)) + best.Sum(o => o.Minutes) + opened;
            Assert.Equal(corners.Min(c => (lambda * c.NegLogChance) + c.Minutes), cost, 1e-6);
        }

        Assert.Equal(corners.Min(c => c.NegLogChance), search.Best(Weighing.DoubtFirst(search.Scale)).Sum(o => o.NegLogChance), 1e-6);
    }

    /// <summary>Groups of two valves, the second of them doubtful in every group.</summary>
    private static PlanRequest Alike(int groups, ValveReadings first, int drawer)
    {
        Valve[] valves =
        [
            .. Enumerable.Range(0, 2 * groups).Select(v =>
                Made.Valve($"V{v + 1}", v % 2 == 0 ? ValveSide.Intake : ValveSide.Exhaust, $"group {v / 2}")),
        ];
        EngineCheck check = new(Made.Engine(valves), valves.Select((_, v) => v % 2 == 0 ? first : Doubtful));
        DrawerShims[] shims = drawer == 0 ? [] : [new(Made.Marked(2.57), drawer), new(Made.Marked(2.58), drawer / 2)];
        var stock = new Stock(shims, [.. new SizeRange(2.4, 2.7, 0.025, 8).Sizes(Instrument.Marked)]);
        var costs = new PlanCosts(access: Enumerable.Range(0, groups).ToDictionary(g => $"group {g}", _ => 10.0));
        return new(check, [.. valves.Select(_ => Made.Marked(2.60))], stock, costs);
    }
}
