using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.Adjusting;

public class ScrewSettingTests
{
    private static readonly Valvetrain Rocker = new(Adjuster.Screw, 1.4, 0.75);

    [Fact]
    public void ClearancePerTurn_Screw_IsTheRatioTimesThePitch()
    {
        Assert.Equal(1.05, ScrewSetting.ClearancePerTurn(Rocker), 1e-15);
        Assert.Equal(0, ScrewSetting.ClearancePerTurn(Made.Bucket));
    }

    [Fact]
    public void Of_WideGap_TurnsItDownToTheMiddle()
    {
        var setting = ScrewSetting.Of(Made.Band, 0.255, Rocker, Seating.Usual);
        Assert.Equal((0.15, true), (setting.Target, setting.Change.IsSet));
        Assert.Equal(-0.105, setting.Change.Shift, 1e-15);
        Assert.Equal(-0.1, setting.Turns, 1e-12);
        Assert.Equal(-0.6, ScrewSetting.Flats(setting.Turns), 1e-12);
        Assert.Equal(1 - (2 * StandardNormal.Cdf(-0.03 / Math.Sqrt(0.000116))), setting.InBand, 1e-12);
    }

    [Fact]
    public void Then_Setting_IsKnownAboutTheMiddle()
    {
        ClearanceEstimate then = ScrewSetting.Of(Made.Band, 0.05, Rocker, new Seating(0)).Then(0.7);

        // The 97.5 % point of the normal law, from memory.
        Assert.Equal(0.15 - 0.01959964, then.Low, 1e-7);
        Assert.Equal(0.15 + 0.01959964, then.High, 1e-7);
        Assert.Equal((0.15, 0.010, 0.7), (then.Mean, then.StandardDeviation, then.InBand));
        Refuses.NotANumber("mean", x => ScrewSetting.Of(Made.Band, x, Rocker, Seating.Usual));
    }
}
