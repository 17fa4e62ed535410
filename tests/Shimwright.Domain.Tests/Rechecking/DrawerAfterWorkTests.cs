using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Rechecking;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Rechecking;

public class DrawerAfterWorkTests
{
    private static readonly Stock Before = new(
        [new(Made.Marked(2.50), 2), new(Made.Measured(2.553), 1), new(Made.Marked(2.55), 1)], [new(Made.Marked(2.60), 8)]);

    [Fact]
    public void Of_ShimOutOfTheDrawer_IsGoneAndTheOldOneIsThere() =>
        AssertDrawer("2.5 marked, 2.55 marked, 2.553 micrometer, 2.7 marked", Fitted(Made.Marked(2.70), Made.Marked(2.50)));

    /// <summary>It is one shim, whatever it is noted as; the one that lay there under that very size is not taken for it.</summary>
    [Fact]
    public void Of_ShimMeasuredAnew_IsTheNearestMark() =>
        AssertDrawer("2.5 marked, 2.55 marked, 2.553 micrometer, 2.7 marked", Fitted(Made.Marked(2.70), Made.Measured(2.506)));

    [Fact]
    public void Of_ShimThatWasBought_TakesNothing() =>
        AssertDrawer("2.5 marked, 2.5 marked, 2.55 marked, 2.553 micrometer, 2.7 marked", Fitted(Made.Marked(2.70), Made.Marked(2.56)));

    /// <summary>Two valves that exchange their shims leave the drawer as it was.</summary>
    [Fact]
    public void Of_ShimsHandedOn_AreInTheEngine() => AssertDrawer(
        "2.5 marked, 2.5 marked, 2.55 marked, 2.553 micrometer",
        Adjustment.Fitted(0, Made.Measured(2.61), Made.Measured(2.66)), Adjustment.Fitted(1, Made.Measured(2.66), Made.Measured(2.61)));

    [Fact]
    public void Of_Screws_ChangesNothing() =>
        AssertDrawer("2.5 marked, 2.5 marked, 2.55 marked, 2.553 micrometer", Adjustment.Turned(0, 0.1));

    private static Adjustment Fitted(Thickness from, Thickness to) => Adjustment.Fitted(0, from, to);

    private static void AssertDrawer(string expected, params Adjustment[] changes)
    {
        Stock after = DrawerAfterWork.Of(Before, changes);
        Assert.Same(Before.Sizes, after.Sizes);
        Assert.Equal(expected, string.Join(", ", after.Drawer.SelectMany(d => Enumerable.Repeat(d.Thickness, d.Count))
            .OrderBy(t => t.Millimetres).Select(t => FormattableString.Invariant($"{t.Millimetres} {t.By.Name}"))));
    }
}
