using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Shims;

public class SizeRangeTests
{
    [Theory]
    [InlineData(1.20, 3.50, 0.05, 47, 3.50)]
    [InlineData(2.00, 2.10, 0.025, 5, 2.10)]
    [InlineData(2.00, 2.09, 0.025, 4, 2.075)]
    [InlineData(2.00, 2.00, 0.05, 1, 2.00)]
    [InlineData(9.90, 10.0, 0.05, 3, 10.0)]
    public void Sizes_AnyRange_RunUpToItsEnd(double from, double to, double step, int count, double last)
    {
        var range = new SizeRange(from, to, step, 8);
        PurchasableSize[] sizes = [.. range.Sizes(Instrument.Marked)];
        Assert.Equal(count, range.Count);
        Assert.Equal(count, sizes.Length);
        Assert.Equal(from, sizes[0].Thickness.Millimetres, 1e-12);
        Assert.Equal(last, sizes[^1].Thickness.Millimetres, 1e-12);
        Assert.All(sizes, s => Assert.Equal((8.0, "marked"), (s.Price, s.Thickness.By.Name)));
    }

    [Fact]
    public void Sizes_EveryStep_AreTheNumbersOnTheMarks() =>

        // Not 2.3000000000000003, which would be another thickness than the drawer's 2.30.
        Assert.Equal([2.2, 2.25, 2.3], new SizeRange(2.2, 2.3, 0.05, 0).Sizes(Instrument.Marked).Select(s => s.Thickness.Millimetres));

    [Fact]
    public void Count_TwoThousand_IsTheMost()
    {
        Assert.Equal(2000, new SizeRange(1, 2.999, 0.001, 0).Count);
        Assert.Throws<ArgumentOutOfRangeException>("step", () => new SizeRange(1, 3, 0.001, 0));
    }

    [Theory]
    [InlineData(0.2999, 3, 0.05, "from")]
    [InlineData(12.0001, 12.0001, 0.05, "from")]
    [InlineData(2, 1.9999, 0.05, "to")]
    [InlineData(2, 12.0001, 0.05, "to")]
    [InlineData(2, 3, 0, "step")]
    [InlineData(2, 3, -0.05, "step")]
    [InlineData(double.NaN, 3, 0.05, "from")]
    [InlineData(2, double.NaN, 0.05, "to")]
    [InlineData(2, 3, double.NaN, "step")]
    public void Range_NumbersThatMayNotBe_AreRefused(double from, double to, double step, string name) =>
        Assert.Throws<ArgumentOutOfRangeException>(name, () => new SizeRange(from, to, step, 0));

    [Fact]
    public void Price_NegativeOrNotANumber_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>("price", () => new SizeRange(2, 3, 0.05, -0.01));
        Refuses.NotANumber("price", x => new SizeRange(2, 3, 0.05, x));
    }

    [Fact]
    public void CountOf_AbsurdStep_IsCapped() => Assert.Equal(int.MaxValue, SizeRange.CountOf(0.3, 10, 1e-12));
}
