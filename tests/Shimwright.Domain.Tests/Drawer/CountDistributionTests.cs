using Shimwright.Domain.Drawer;
using Xunit;

namespace Shimwright.Domain.Tests.Drawer;

public class CountDistributionTests
{
    [Fact]
    public void OfChances_FewThings_IsTheSumOverAllOutcomes()
    {
        var chance = new SeededChance(61);
        for (int k = 0; k < 20; k++)
        {
            double[] chances = [.. Enumerable.Range(0, 8).Select(_ => chance.Uniform())];
            double[] slow = new double[9];
            for (int outcome = 0; outcome < 256; outcome++)
            {
                int happened = int.PopCount(outcome);
                slow[happened] += chances.Index().Aggregate(1.0, (p, c) => p * ((outcome >> c.Index & 1) == 1 ? c.Item : 1 - c.Item));
            }

            CountDistribution law = CountDistribution.OfChances(chances);

            Assert.All(slow.Zip(law.Chances), p => Assert.Equal(p.First, p.Second, 1e-12));
            Assert.Equal(chances.Sum(), law.Mean, 1e-12);
            Assert.Equal(chances.Sum(p => p * (1 - p)), law.Variance, 1e-12);
        }
    }

    [Fact]
    public void OfChances_ManySmallOnes_IsNearlyPoisson()
    {
        CountDistribution law = CountDistribution.OfChances(Enumerable.Repeat(0.001, 3000));
        Assert.All(CountDistribution.Poisson(3).Chances.Zip(law.Chances), p => Assert.Equal(p.First, p.Second, 0.001));
    }

    [Fact]
    public void Sum_OfPoissons_IsPoisson() =>
        Assert.All(
            CountDistribution.Sum([CountDistribution.Poisson(2), CountDistribution.Poisson(5)]).Chances.Zip(CountDistribution.Poisson(7).Chances),
            p => Assert.Equal(p.Second, p.First, 1e-12));

    [Fact]
    public void Covering_AnyLevel_IsTheLeastStockThatReachesIt()
    {
        var chance = new SeededChance(62);
        for (int k = 0; k < 100; k++)
        {
            CountDistribution law = CountDistribution.OfChances([.. Enumerable.Range(0, 12).Select(_ => chance.Uniform())]);
            double level = chance.Uniform();
            int stock = law.Covering(level);
            Assert.True(law.AtMost(stock) >= level - 1e-12);
            Assert.True(law.AtMost(stock - 1) < level);
        }
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 3)]
    [InlineData(0.5, 0)]
    [InlineData(0.51, 1)]
    public void Covering_ExactShares_AreReached(double level, int stock) =>
        Assert.Equal(stock, CountDistribution.Of([0.5, 0.25, 0.2, 0.05]).Covering(level));

    [Fact]
    public void ServedBy_AnyStock_IsTheMeanOfTheLesser()
    {
        CountDistribution law = CountDistribution.Of([0.5, 0.25, 0.2, 0.05]);
        Assert.Equal([0, 0.5, 0.75, 0.8, 0.8], Enumerable.Range(0, 5).Select(law.ServedBy), (a, b) => Math.Abs(a - b) < 1e-12);
        Assert.Equal(law.Mean, law.ServedBy(3), 1e-12);
    }

    [Fact]
    public void None_IsNothing()
    {
        Assert.Equal((0.0, 1.0, 0), (CountDistribution.None.Mean, CountDistribution.None.AtMost(0), CountDistribution.None.Covering(1)));
        Assert.Equal(0, CountDistribution.None.AtMost(-1));
        Assert.Equal(CountDistribution.None, CountDistribution.Poisson(0));
        Assert.Equal([1], CountDistribution.Sum([]).Chances);
    }

    [Fact]
    public void Poisson_AnyMean_AddsUpToOne()
    {
        foreach (double mean in new[] { 0.01, 1, 18, 90, 2500 })
        {
            CountDistribution law = CountDistribution.Poisson(mean);
            Assert.Equal(1, law.Chances.Sum(), 1e-12);
            Assert.Equal(mean, law.Mean, 1e-9 * Math.Max(1, mean));
            Assert.Equal(mean, law.Variance, 1e-6 * Math.Max(1, mean));
        }
    }

    [Fact]
    public void Of_ChancesThatAreNone_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => CountDistribution.Of([0.5, 0.4]));
        Assert.Throws<ArgumentOutOfRangeException>(() => CountDistribution.Of([1.5, -0.5]));
        Assert.Throws<ArgumentOutOfRangeException>(() => CountDistribution.Of([]));
        Refuses.NotANumber("chances", p => CountDistribution.OfChances([p]));
        Refuses.NotANumber("mean", CountDistribution.Poisson);
        Assert.Throws<ArgumentOutOfRangeException>(() => CountDistribution.None.Covering(1.1));
    }
}
