using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.Engines;

public class LeverTests
{
    // A finger on paper: pivot at 0, cam at 30 mm, valve stem at 42 mm. The stem's seat drops by 0.10 mm (a thinner shim), the
    // finger swings about its pivot until it stands on it again, and at 30 mm it is lower by 30·tan(asin(0.10 / 42)) = 0.0714.
    [Fact]
    public void Ratio_FingerDrawnOnPaper_IsWhatTheDrawingGives()
    {
        const double cam = 30, stem = 42, thinner = 0.10;
        double swing = Math.Asin(thinner / stem);
        var finger = new Lever(stem / cam, LeverEnd.Valve, LeverEnd.Cam);
        Assert.Equal(cam * Math.Tan(swing), finger.Ratio * thinner, 1e-6);
        Assert.Equal(thinner, new Lever(stem / cam, LeverEnd.Valve, LeverEnd.Valve).Ratio * thinner, 1e-15);
    }

    // A rocker on paper: shaft at 0, push rod at -24 mm, valve at 36 mm. The screw at the push rod comes back by 0.10 mm, the
    // rocker swings by asin(0.10 / 24), and the pad above the valve rises by 36·sin of that = 0.15.
    [Fact]
    public void Ratio_RockerDrawnOnPaper_IsWhatTheDrawingGives()
    {
        const double rod = 24, valve = 36, back = 0.10;
        double swing = Math.Asin(back / rod);
        Assert.Equal(valve * Math.Sin(swing), new Lever(valve / rod, LeverEnd.Cam, LeverEnd.Valve).Ratio * back, 1e-12);
        Assert.Equal(1, new Lever(valve / rod, LeverEnd.Cam, LeverEnd.Cam).Ratio);
        Assert.Equal(1, new Lever(valve / rod, LeverEnd.Valve, LeverEnd.Valve).Ratio);
    }

    // 0.05 too tight at the cam under a finger of 1.4: the shim has to be 0.07 thinner, not 0.036.
    [Fact]
    public void Wanted_TightUnderAFinger_IsThinnerByMoreThanTheGapLacks()
    {
        var train = new Valvetrain(Adjuster.FingerFollower, new Lever(1.4, LeverEnd.Valve, LeverEnd.Cam));
        Assert.Equal(2.43, Leverage.Of(train).Wanted(2.50, 0.10, 0.15), 1e-12);
    }

    [Fact]
    public void Lever_BeyondItsLimitsOrUnderABucket_IsRefused()
    {
        Refuses.OutOfRange("liftRatio", 0.49, "0.5 to 2.5", () => new Lever(0.49, LeverEnd.Valve, LeverEnd.Cam));
        Refuses.OutOfRange("liftRatio", 2.51, "0.5 to 2.5", () => new Lever(2.51, LeverEnd.Valve, LeverEnd.Cam));
        Refuses.NotANumber("liftRatio", x => new Lever(x, LeverEnd.Valve, LeverEnd.Cam));
        Assert.Throws<ArgumentOutOfRangeException>("feltAt", () => new Lever(1, LeverEnd.Valve, (LeverEnd)5));
        Assert.Throws<ArgumentOutOfRangeException>("adjustedAt", () => new Lever(1, (LeverEnd)5, LeverEnd.Valve));
        var lever = new Lever(2.5, LeverEnd.Cam, LeverEnd.Valve);
        Assert.Throws<ArgumentException>("lever", () => new Valvetrain(Adjuster.ShimUnderBucket, lever));
        Assert.Throws<ArgumentException>("pitch", () => new Valvetrain(Adjuster.Screw, lever));
        Assert.Equal(2.5, new Valvetrain(Adjuster.Screw, lever, 1).Ratio);
        Assert.Null(new Valvetrain(Adjuster.Screw, 1.3, 1).Lever);
    }
}
