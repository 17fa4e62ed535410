using Shimwright.Domain.Drawer;
using Shimwright.Domain.Numerics;
using Xunit;

namespace Shimwright.Domain.Tests.Drawer;

public class NewsvendorTests
{
    [Fact]
    public void BestFor_AnyDemand_IsNoDearerThanAnyOtherStock()
    {
        var chance = new SeededChance(63);
        for (int k = 0; k < 50; k++)
        {
            CountDistribution demand = CountDistribution.OfChances([.. Enumerable.Range(0, 15).Select(_ => chance.Uniform())]);
            var costs = new Newsvendor(chance.Uniform(0.1, 5), chance.Uniform(0.1, 20));
            StockLevel best = costs.BestFor(demand);
            Assert.All(Enumerable.Range(0, 17), stock => Assert.True(costs.CostFor(stock, demand) >= best.Cost - 1e-12));
        }
    }

    [Fact]
    public void BestForNormal_AnyDemand_IsNoDearerThanItsNeighbours()
    {
        var costs = new Newsvendor(2, 9);
        StockLevel best = costs.BestForNormal(30, 6);
        Assert.True(costs.CostForNormal(best.Level + 0.1, 30, 6) > best.Cost);
        Assert.True(costs.CostForNormal(best.Level - 0.1, 30, 6) > best.Cost);
        Assert.Equal(costs.CriticalRatio, StandardNormal.Cdf((best.Level - 30) / 6), 1e-12);
    }

    [Fact]
    public void CostForNormal_ManyPieces_IsNearlyThatOfACount() =>
        Assert.Equal(
            new Newsvendor(1, 3).CostForNormal(1040, 1000, Math.Sqrt(1000)),
            new Newsvendor(1, 3).CostFor(1040, CountDistribution.Poisson(1000)), 0.5);

    [Fact]
    public void OverLeadTime_OfAnyDemand_AddsMeansAndVariances()
    {
        CountDistribution period = CountDistribution.Of([0.2, 0.5, 0.3]);
        CountDistribution all = Newsvendor.OverLeadTime(period, 3);
        Assert.Equal(4 * period.Mean, all.Mean, 1e-12);
        Assert.Equal(4 * period.Variance, all.Variance, 1e-12);
        Assert.Equal((200, 16), Newsvendor.OverLeadTime(50, 8, 3));
        Assert.Same(typeof(CountDistribution), Newsvendor.OverLeadTime(period, 0).GetType());
        Assert.Equal(period.Mean, Newsvendor.OverLeadTime(period, 0).Mean, 1e-12);
    }

    [Fact]
    public void Newsvendor_CostsThatAreNone_AreRefused()
    {
        Refuses.NotANumber("holding", h => new Newsvendor(h, 1));
        Refuses.NotANumber("shortage", p => new Newsvendor(1, p));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Newsvendor(0, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Newsvendor(1, 1).CostFor(-1, CountDistribution.None));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Newsvendor(1, 1).BestForNormal(10, 0));
    }
}
