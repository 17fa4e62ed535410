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
    /// open any of its groups, and a weak bound has to try them all. Scarce shims that all want are the hardest.
    /// </summary>
    [Theory]
    [InlineData("one doubtful", 0, MostNodes)]
    [InlineData("one doubtful", 8, MostNodes)]
    [InlineData("both doubtful", 0, MostNodes)]
    [InlineData("both doubtful", 6, 100 * MostNodes)]
    [InlineData("both doubtful", 20, 5 * MostNodes)]
    [InlineData("one doubtful, one less so", 0, MostNodes)]
    [InlineData("one doubtful, one less so", 8, MostNodes)]
    public void Nodes_TwelveGroupsThatAreAlike_AreNotEverySetOfGroups(string group, int drawer, int most)
    {
        ValveReadings first = group switch
        {
            "one doubtful" => Sure,
            "both doubtful" => Doubtful,
            _ => LessDoubtful,
        };
        PlanRequest request = Alike(12, first, drawer);
        var search = new PlanSearch(request, new OptionTable(request, Made.EstimateFor(request)));
        var hull = new PlanHull(search);
        Assert.True(hull.Corners.Count > 1);
        Assert.InRange(search.Nodes, 1, most);
    }

    [Theory]
    [InlineData(4, 0)]
    [InlineData(4, 3)]
    [InlineData(6, 1)]
    public void Best_AnyWeights_IsNoWorseThanAnyPlanOfTheHullAndOnIt(int groups, int drawer)
    {
        PlanRequest request = Alike(groups, LessDoubtful, drawer);
        var search = new PlanSearch(request, new OptionTable(request, Made.EstimateFor(request)));
        PlanPoint[] corners = [.. new PlanHull(search).Corners];
        foreach (double weight in (double[])[0.01, 0.1, 0.5, 0.9])
        {
            foreach (PlanWeights weights in (PlanWeights[])[new(1, weight), new(weight, 1)])
            {
                PlanPoint best = new PlanSearch(request, new OptionTable(request, Made.EstimateFor(request))).Best(weights, 0);
                Assert.Equal(corners.Min(c => weights.Of(c.Work, c.ToCome)), weights.Of(best.Work, best.ToCome), 1e-7);
            }
        }
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
