using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Shims;

public class StockTests
{
    [Fact]
    public void Thinnest_ShimThatIsUsedUp_DoesNotCount()
    {
        DrawerShims[] drawer = [new(Made.Measured(1.80), 0), new(Made.Measured(2.00), 1), new(Made.Measured(2.10), 4)];
        Assert.Equal(2.00, new Stock(drawer, [new PurchasableSize(Made.Marked(2.05), 8)]).Thinnest);
        Assert.Equal(1.95, new Stock(drawer, [new PurchasableSize(Made.Marked(1.95), 8)]).Thinnest);
        Assert.Null(new Stock([drawer[0]], []).Thinnest);
    }
}
