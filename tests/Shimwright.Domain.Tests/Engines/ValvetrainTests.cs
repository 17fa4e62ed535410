using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.Engines;

public class ValvetrainTests
{
    [Theory]
    [InlineData(0.1)]
    [InlineData(1)]
    [InlineData(5)]
    public void Ratio_WithinItsLimits_IsKept(double ratio) =>
        Assert.Equal(ratio, new Valvetrain(Adjuster.FingerFollower, ratio).Ratio);

    [Theory]
    [InlineData(0.0999)]
    [InlineData(5.0001)]
    public void Ratio_BeyondItsLimits_IsRefused(double ratio) =>
        Refuses.OutOfRange("ratio", ratio, "0.1 to 5", () => new Valvetrain(Adjuster.FingerFollower, ratio));

    [Theory]
    [InlineData(0.1)]
    [InlineData(3)]
    public void Pitch_WithinItsLimits_IsKept(double pitch) =>
        Assert.Equal(pitch, new Valvetrain(Adjuster.Screw, 1, pitch).Pitch);

    [Theory]
    [InlineData(0.0999)]
    [InlineData(3.0001)]
    public void Pitch_BeyondItsLimits_IsRefused(double pitch) =>
        Refuses.OutOfRange("pitch", pitch, "0.1 to 3", () => new Valvetrain(Adjuster.Screw, 1, pitch));

    [Fact]
    public void Numbers_NotANumber_AreRefused()
    {
        Refuses.NotANumber("ratio", x => new Valvetrain(Adjuster.GradedBucket, x));
        Refuses.NotANumber("pitch", x => new Valvetrain(Adjuster.Screw, 1, x));
    }

    [Fact]
    public void Pitch_ScrewWithoutOrShimWith_IsRefusedInWords()
    {
        Assert.StartsWith(
            "A screw needs a pitch", Assert.Throws<ArgumentException>("pitch", () => new Valvetrain(Adjuster.Screw)).Message, StringComparison.Ordinal);
        foreach (Adjuster adjuster in Enum.GetValues<Adjuster>().Where(a => a != Adjuster.Screw))
        {
            Assert.Throws<ArgumentException>("pitch", () => new Valvetrain(adjuster, 1, 0.75));
            Assert.True(new Valvetrain(adjuster).HasShims);
        }
    }

    [Fact]
    public void HasShims_Screw_HasNone() => Assert.False(new Valvetrain(Adjuster.Screw, 1.4, 0.75).HasShims);
}
