using MathNet.Numerics.Distributions;
using Shimwright.Domain.Drawer;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Drawer;

[Proof(Formulas.Wants, Evidence.Computed, "The sum over all outcomes.")]
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
        Assert.All(law.Chances.Index(), c => Assert.Equal(Poisson.PMF(3, c.Index), c.Item, 0.001));
    }

    [Theory]
    [InlineData(40, 0.001)]
    [InlineData(5000, 0.5)]
    public void OfChances_HoweverMany_AddUpToOne(int count, double chance)
    {
        CountDistribution law = CountDistribution.OfChances(Enumerable.Repeat(chance, count));
        Assert.Equal(1, law.Chances.Sum(), 1e-12);
        Assert.Equal(count * chance, law.Mean, 1e-9 * count);
        Assert.Equal(count * chance * (1 - chance), law.Variance, 1e-9 * count);
    }

    [Fact]
    public void Sum_OfCounts_IsTheCountOfAllTheirThings()
    {
        double[] some = [0.1, 0.7, 0.35], others = [0.9, 0.02];
        Assert.All(
            CountDistribution.Sum([CountDistribution.OfChances(some), CountDistribution.OfChances(others)]).Chances
                .Zip(CountDistribution.OfChances([.. some, .. others]).Chances),
            p => Assert.Equal(p.Second, p.First, 1e-12));
    }

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
    [InlineData(1, 2)]
    [InlineData(0.4, 0)]
    [InlineData(0.41, 1)]
    [InlineData(0.9, 1)]
    [InlineData(0.91, 2)]
    public void Covering_ExactShares_AreReached(double level, int stock) =>
        Assert.Equal(stock, CountDistribution.OfChances([0.5, 0.2]).Covering(level));

    [Fact]
    public void ServedBy_AnyStock_IsTheMeanOfTheLesser()
    {
        CountDistribution law = CountDistribution.OfChances([0.5, 0.2]);
        Assert.Equal([0, 0.6, 0.7, 0.7], Enumerable.Range(0, 4).Select(law.ServedBy), (a, b) => Math.Abs(a - b) < 1e-12);
        Assert.Equal(law.Mean, law.ServedBy(2), 1e-12);
    }

    [Fact]
    public void None_IsNothing()
    {
        Assert.Equal((0.0, 1.0, 0), (CountDistribution.None.Mean, CountDistribution.None.AtMost(0), CountDistribution.None.Covering(1)));
        Assert.Equal(0, CountDistribution.None.AtMost(-1));
        Assert.Equal([1], CountDistribution.OfChances([]).Chances);
        Assert.Equal([1], CountDistribution.Sum([]).Chances);
    }

    [Fact]
    public void OfChances_ChancesThatAreNone_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>("chances", () => CountDistribution.OfChances([0.5, 1.001]));
        Assert.Throws<ArgumentOutOfRangeException>("chances", () => CountDistribution.OfChances([-0.001]));
        Refuses.NotANumber("chances", p => CountDistribution.OfChances([p]));
        Assert.Throws<ArgumentOutOfRangeException>(() => CountDistribution.None.Covering(1.1));
    }
}
