using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.CrankStops;

/// <summary>Running mates: split the firing order in half and write one half under the other.</summary>
[Proof(Formulas.Thumb, Evidence.Published, "Running mates as printed.")]
public class CompanionTests
{
    // In-line six: TM 5-6115-400-12, fig. 3-11, where 6 rocks for 1; its other two pairs from memory. V8 and flat six,
    // one pair each: from memory. In-line four, where 4 rocks for 1: TM 10-3930-671-24.
    [Theory]
    [InlineData("1-6 5-2 3-4", 1, 5, 3, 6, 2, 4)]
    [InlineData("1-6", 1, 8, 4, 3, 6, 5, 7, 2)]
    [InlineData("1-4", 1, 6, 2, 4, 3, 5)]
    [InlineData("1-4", 1, 3, 4, 2)]
    public void Companions_PublishedPairs_AreFound(string published, params int[] order)
    {
        IReadOnlyList<(int One, int Other)> pairs = ThumbRules.Companions(Layout(order));
        Assert.Equal(order.Length / 2, pairs.Count);
        foreach (int[] pair in published.Split(' ').Select(p => p.Split('-').Select(n => n[0] - '0').Order().ToArray()))
        {
            Assert.Contains((pair[0], pair[1]), pairs);
        }
    }

    // TM 10-3930-671-24: number 1 stands at TDC and the valves of number 4 rock. So both of its valves are off their heels.
    [Theory]
    [InlineData(4, 1, 3, 4, 2)]
    [InlineData(6, 1, 5, 3, 6, 2, 4)]
    public void HeelOf_MateAtTdcOfCylinderOne_Rocks(int mate, params int[] order)
    {
        CrankLayout layout = Layout(order);
        Assert.True(PublishedTable.SlackAt(layout, mate, ValveSide.Intake, 0) < 0);
        Assert.True(PublishedTable.SlackAt(layout, mate, ValveSide.Exhaust, 0) < 0);
    }

    // The general form, order[(k + N/2) mod N], for every published layout with an even number of cylinders; none with an odd one.
    [Fact]
    public void Companions_EveryPublishedLayout_AreHalfAnOrderApart()
    {
        foreach (PublishedTable table in PublishedTables.All)
        {
            int count = table.FiringOrder.Count;
            IEnumerable<(int, int)> expected = count % 2 == 1
                ? []
                : Enumerable.Range(0, count).Select(k => (table.FiringOrder[k], table.FiringOrder[(k + (count / 2)) % count])).Where(p => p.Item1 < p.Item2).Order();
            Assert.Equal(expected, ThumbRules.Companions(Layout([.. table.FiringOrder])));
        }
    }

    private static CrankLayout Layout(int[] order) => new PublishedTable("", order, []).Layout(PublishedTable.LongOpen, ramp: 20);
}
