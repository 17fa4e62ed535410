using Shimwright.Domain.Drawer;
using Xunit;

namespace Shimwright.Domain.Tests.Drawer;

public class OrderListTests
{
    [Fact]
    public void Of_WantsOfSeveralEngines_AddUpSizeBySize()
    {
        IReadOnlyList<SizeDemand> demand = SizeDemand.Of(
        [
            new(2.55, CountDistribution.OfChances([0.5])), new(2.50, CountDistribution.OfChances([0.2, 0.2])), new(2.55 + 1e-9, CountDistribution.OfChances([0.5])),
        ]);

        Assert.Equal([2.50, 2.55], demand.Select(d => d.Size));
        Assert.Equal([0.25, 0.5, 0.25], demand[1].Wanted.Chances);
    }

    /// <summary>Sizes in steps of 0.025 and the half sizes between are different shims.</summary>
    [Fact]
    public void Of_SizesThousandthsApart_AreLinesOfTheirOwn() => Assert.Equal(
        [2.375, 2.376, 2.38],
        SizeDemand.Of([new(2.38, CountDistribution.OfChances([0.5])), new(2.375, CountDistribution.OfChances([0.5])), new(2.376, CountDistribution.OfChances([0.5]))])
            .Select(d => d.Size));

    [Fact]
    public void For_DemandAndStock_OrdersUpToTheLevel()
    {
        IReadOnlyList<SizeDemand> demand =
        [
            new(2.50, CountDistribution.OfChances([0.5, 0.5, 0.2])), new(2.55, CountDistribution.OfChances([0.05])), new(2.60, CountDistribution.OfChances([0.5])),
        ];

        var list = OrderList.For(demand, s => s < 2.52 ? 1 : 0, s => s > 2.58 ? null : 8, 0.90);

        Assert.Equal([2, 0, 1], list.Lines.Select(l => l.Level));
        Assert.Equal([1, 0, 0], list.Lines.Select(l => l.ToOrder));
        Assert.Equal([0, 0, 1], list.Lines.Select(l => l.Missing));
        Assert.Equal([0.65, 0.95, 0.5], list.Lines.Select(l => l.CoveredNow), (a, b) => Math.Abs(a - b) < 1e-12);
        Assert.Equal([0.95, 0.95, 0.5], list.Lines.Select(l => l.CoveredThen), (a, b) => Math.Abs(a - b) < 1e-12);
        Assert.Equal(8, list.Cost);
        Assert.Equal(0.95 * 0.95 * 0.5, list.AllCovered, 1e-12);
    }

    [Fact]
    public void For_MoreThanIsWanted_OrdersNothing()
    {
        OrderLine line = Assert.Single(OrderList.For([new(2.5, CountDistribution.OfChances([0.5]))], _ => 9, _ => 8).Lines);
        Assert.Equal((0, 0, 1.0), (line.ToOrder, line.Cost, line.CoveredThen));
    }

    /// <summary>Engines choose by chance; how often the stock ordered for 0.90 sufficed is what the list said of each size.</summary>
    [Fact]
    public void For_SimulatedFleets_CoversAsOftenAsItSays()
    {
        var chance = new SeededChance(64);
        double[][] engines = [.. Enumerable.Range(0, 30).Select(_ => Enumerable.Range(0, 3).Select(_ => chance.Uniform(0, 0.3)).ToArray())];
        double[] sizes = [2.50, 2.55, 2.60];
        IReadOnlyList<SizeDemand> demand = SizeDemand.Of(engines.SelectMany(e => sizes.Zip(e, (s, p) => new EngineWant(s, CountDistribution.OfChances([p])))));
        var list = OrderList.For(demand, _ => 2, _ => 8);
        const int years = 20_000;
        int[] enough = new int[3];
        for (int year = 0; year < years; year++)
        {
            for (int s = 0; s < 3; s++)
            {
                enough[s] += engines.Count(e => chance.Happens(e[s])) <= Math.Max(2, list.Lines[s].Level) ? 1 : 0;
            }
        }

        Assert.All(enough.Index(), e =>
        {
            double said = list.Lines[e.Index].CoveredThen;
            Assert.True(said >= 0.90);
            Assert.Equal(said, e.Item / (double)years, 4 * Math.Sqrt(said * (1 - said) / years));
        });
    }

    [Fact]
    public void For_WhatCannotBe_IsRefused()
    {
        SizeDemand one = new(2.5, CountDistribution.None);
        Assert.Throws<ArgumentException>(() => OrderList.For([one, one], _ => 0, _ => 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => OrderList.For([one], _ => -1, _ => 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => OrderList.For([one], _ => 0, _ => 1, 1.5));
        Refuses.NotANumber("size", s => new EngineWant(s, CountDistribution.None));
    }
}
