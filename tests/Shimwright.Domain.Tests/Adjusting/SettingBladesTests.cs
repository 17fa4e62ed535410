using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.Adjusting;

/// <summary>The blades with which a gap of 0.20 to 0.26 is set, its middle 0.23. Common practice, no source.</summary>
public class SettingBladesTests
{
    private static readonly ClearanceBand Band = new(0.20, 0.26);

    [Theory]
    [InlineData(0.23, null, 0.20, 0.23, 0.25)]
    [InlineData(0.22, null, 0.18, 0.22, 0.26)]
    [InlineData(0.20, 0.26, 0.18, 0.20, 0.26)]
    [InlineData(0.20, 0.25, 0.15, 0.18, 0.20, 0.25)]
    [InlineData(0.18, null, 0.10, 0.18, 0.40)]
    [InlineData(0.30, null, 0.15, 0.30)]
    public void For_ThePersonsBlades_AreTheNearestOrTheTwoAboutTheMiddle(double blade, double? noGo, params double[] blades)
    {
        SettingBlades set = SettingBlades.For(Band, blades)!;
        Assert.Equal((blade, noGo), (set.Blade, set.NoGo));
    }

    [Fact]
    public void For_NoBlades_IsNothing() => Assert.Null(SettingBlades.For(Band, []));
}
