using Shimwright.Bench.Drawer;
using Shimwright.Bench.Orders;
using Shimwright.Jobs.Written;

namespace Shimwright.Bench.Tests.Orders;

public class SizeGridTests
{
    private static readonly SizesToBuy Buy = new(2.4, 2.6, 0.05, 8);

    /// <summary>What an open job has promised is gone for those who order.</summary>
    [Fact]
    public void FreeOf_SizeWithPromisedShims_CountsTheOthers() => Assert.Equal(1, SizeGrid.Of([Buy], [Lot(2.45, 3, promised: 2)]).FreeOf(2.45));

    /// <summary>Half a step off it still counts for the size; a shim beyond all that can be bought counts for none.</summary>
    [Theory]
    [InlineData(2.624, 1)]
    [InlineData(2.626, 0)]
    [InlineData(3.5, 0)]
    public void FreeOf_ThickestSize_CountsWhatLiesWithinHalfAStep(double thickness, int free) =>
        Assert.Equal(free, SizeGrid.Of([Buy], [Lot(thickness, 1)]).FreeOf(2.6));

    [Fact]
    public void PriceOf_SizeThatIsOfferedMoreThanOnce_IsTheLowest()
    {
        SizeGrid grid = SizeGrid.Of([Buy, new(2.5, 2.5, 0.05, 5), new(2.5, 2.55, 0.05, 9)], []);
        Assert.Equal([8.0, 8, 5, 8, 8], grid.Sizes.Select(grid.PriceOf));
    }

    private static ShimLot Lot(double thickness, int count, int promised = 0) => new(ShimSize.Of(9.48, thickness, "marked"), count, promised, 0, "", null);
}
