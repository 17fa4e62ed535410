using Shimwright.Domain.Drawer;
using Shimwright.Reference.Published;
using Xunit;

namespace Shimwright.Reference.Drawer;

/// <summary>
/// Newsvendor and base-stock levels and their cost (data/published/newsvendor): Snyder and Shen, Fundamentals of Supply Chain
/// Theory, 2nd ed. 2019, by the public repository LarrySnyder/stockpyl. All published digits but the last two or three are reached.
/// </summary>
public class NewsvendorTests
{
    [Theory]
    [PublishedFile("newsvendor/normal.csv")]
    public void BestForNormal_PublishedExamples_GiveLevelAndCost(PublishedFile file)
    {
        foreach (IReadOnlyDictionary<string, string> row in PublishedRows.Rows(file))
        {
            var costs = new Newsvendor(row.Number("holding"), row.Number("shortage"));
            (double mean, double deviation) = Newsvendor.OverLeadTime(row.Number("mean"), row.Number("deviation"), (int)row.Number("leadTime"));

            StockLevel best = costs.BestForNormal(mean, deviation);

            Assert.Equal(row.Number("level"), best.Level, 1e-9 * row.Number("level"));
            Assert.Equal(row.Number("cost"), best.Cost, 1e-9 * row.Number("cost"));
            if (row["triedLevel"].Length > 0)
            {
                Assert.Equal(row.Number("triedCost"), costs.CostForNormal(row.Number("triedLevel"), mean, deviation), 1e-9 * row.Number("triedCost"));
            }
        }
    }

    [Theory]
    [PublishedFile("newsvendor/counts.csv")]
    public void BestFor_PublishedPoissonExamples_GiveLevelAndCost(PublishedFile file)
    {
        foreach (IReadOnlyDictionary<string, string> row in PublishedRows.Rows(file))
        {
            var costs = new Newsvendor(row.Number("holding"), row.Number("shortage"));
            CountDistribution demand = Newsvendor.OverLeadTime(CountDistribution.Poisson(row.Number("poisson")), (int)row.Number("leadTime"));

            StockLevel best = costs.BestFor(demand);

            Assert.Equal(row.Number("level"), best.Level);
            Assert.Equal(row.Number("cost"), best.Cost, 1e-8 * row.Number("cost"));
            if (row["triedLevel"].Length > 0)
            {
                Assert.Equal(row.Number("triedCost"), costs.CostFor((int)row.Number("triedLevel"), demand), 1e-8 * row.Number("triedCost"));
            }
        }
    }

    // Problem 4.7b of the same book, by the same repository: demand 1 to 8 with chances given.
    [Fact]
    public void BestFor_PublishedDiscreteDemand_GivesLevelAndCost()
    {
        var costs = new Newsvendor(500_000, 1_000_000);
        CountDistribution demand = CountDistribution.Of([0, 0.25, 0.05, 0.1, 0.2, 0.15, 0.1, 0.1, 0.05]);

        Assert.Equal(new StockLevel(5, 1_225_000), Rounded(costs.BestFor(demand)));
        Assert.Equal(1_725_000, costs.CostFor(3, demand), 1e-3);
    }

    // Example 4.2: sold at 1, bought at 0.30, left over worth 0.12: the profit is what selling all would bring less the cost above.
    [Fact]
    public void BestForNormal_ExplicitProfit_IsThePublishedOne()
    {
        StockLevel best = new Newsvendor(0.30 - 0.12, 1 - 0.30).BestForNormal(50, 8);

        Assert.Equal(33.002394806823354, ((1 - 0.30) * 50) - best.Cost, 1e-9);
    }

    // G. Cachon, C. Terwiesch, Matching Supply with Demand, 3rd ed., solution of Q12.1: demand N(200, 80), 8 for each missing, 4 for
    // each left over: ratio 0.6667, by their table z = 0.44 and so 235.2; without rounding 234.458 (computed in numpy).
    [Fact]
    public void BestForNormal_CachonTerwiesch_GivesThePublishedOrder()
    {
        var costs = new Newsvendor(4, 8);

        Assert.Equal(0.6667, costs.CriticalRatio, 0.00005);
        Assert.Equal(235.2, costs.BestForNormal(200, 80).Level, 0.01 * 80);
        Assert.Equal(234.458, costs.BestForNormal(200, 80).Level, 0.0005);
    }

    // Poisson(10), the demand of a base stock; computed in numpy to six digits.
    [Theory]
    [InlineData(9, 0.457930)]
    [InlineData(12, 0.791556)]
    [InlineData(14, 0.916542)]
    [InlineData(15, 0.951260)]
    [InlineData(18, 0.992813)]
    [InlineData(20, 0.998412)]
    public void AtMost_PoissonOfTen_IsTheTabulatedShare(int stock, double share) =>
        Assert.Equal(share, CountDistribution.Poisson(10).AtMost(stock), 5e-7);

    private static StockLevel Rounded(StockLevel level) => level with { Cost = Math.Round(level.Cost, 3) };
}
