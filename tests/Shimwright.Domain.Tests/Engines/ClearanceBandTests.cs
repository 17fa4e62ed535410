using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.Engines;

public class ClearanceBandTests
{
    [Theory]
    [InlineData(0, 3)]
    [InlineData(0.12, 0.18)]
    [InlineData(0.10, 0.105)]
    [InlineData(2.995, 3)]
    public void Band_LimitsThatMayBe_AreKept(double low, double high)
    {
        var band = new ClearanceBand(low, high);
        Assert.Equal((low, high), (band.Low, band.High));
        Assert.Equal((low + high) / 2, band.Middle);
        Assert.Equal(high - low, band.Width);
        Assert.True(ClearanceBand.IsWideEnough(low, high));
    }

    [Fact]
    public void Band_LowBelowTheLeast_IsRefused() =>
        Refuses.OutOfRange("low", -0.0001, "0 to 3", () => new ClearanceBand(-0.0001, 0.2));

    [Fact]
    public void Band_HighAboveTheGreatest_IsRefused() =>
        Refuses.OutOfRange("high", 3.0001, "0 to 3", () => new ClearanceBand(0.1, 3.0001));

    [Theory]
    [InlineData(0.10, 0.1049)]
    [InlineData(0.10, 0.10)]
    [InlineData(0.18, 0.12)]
    public void Band_TooNarrowOrTheWrongWayRound_IsRefused(double low, double high)
    {
        Assert.Equal("high - low", Assert.Throws<ArgumentOutOfRangeException>(() => new ClearanceBand(low, high)).ParamName);
        Assert.False(ClearanceBand.IsWideEnough(low, high));
    }

    [Fact]
    public void Band_NotANumber_IsRefused()
    {
        Refuses.NotANumber("low", x => new ClearanceBand(x, 0.2));
        Refuses.NotANumber("high", x => new ClearanceBand(0.1, x));
    }

    [Fact]
    public void Band_SameLimits_IsTheSameBand() => Assert.Equal(new ClearanceBand(0.12, 0.18), new ClearanceBand(0.12, 0.18));
}
