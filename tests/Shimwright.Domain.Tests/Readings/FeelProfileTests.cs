using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

public class FeelProfileTests
{
    [Fact]
    public void Default_IsCommonPractice()
    {
        // Common practice, no source.
        FeelProfile feel = FeelProfile.Default;
        Assert.Equal(
            (-0.025, -0.005, 0.017, 0.006, 0.02, 0.003), (feel.Firm, feel.Light, feel.Loose, feel.StandardDeviation, feel.Slip, feel.Blade));
    }

    [Fact]
    public void Profile_AtItsLimits_IsTaken()
    {
        Assert.Equal(-0.2, new FeelProfile(firm: -0.2).Firm);
        Assert.Equal(0.2, new FeelProfile(loose: 0.2).Loose);
        Assert.Equal(0.001, new FeelProfile(spread: 0.001).StandardDeviation);
        Assert.Equal(0.1, new FeelProfile(spread: 0.1).StandardDeviation);
        Assert.Equal(0, new FeelProfile(slip: 0).Slip);
        Assert.Equal(0.5, new FeelProfile(slip: 0.5).Slip);
        Assert.Equal(0, new FeelProfile(blade: 0).Blade);
        Assert.Equal(0.05, new FeelProfile(blade: 0.05).Blade);
    }

    [Fact]
    public void Profile_BeyondItsLimits_IsRefused()
    {
        Refuses.OutOfRange("firm", -0.2001, "-0.2 to 0.2", () => new FeelProfile(firm: -0.2001));
        Refuses.OutOfRange("loose", 0.2001, "-0.2 to 0.2", () => new FeelProfile(loose: 0.2001));
        Refuses.OutOfRange("spread", 0.00099, "0.001 to 0.1", () => new FeelProfile(spread: 0.00099));
        Refuses.OutOfRange("spread", 0.1001, "0.001 to 0.1", () => new FeelProfile(spread: 0.1001));
        Refuses.OutOfRange("slip", -0.001, "0 to 0.5", () => new FeelProfile(slip: -0.001));
        Refuses.OutOfRange("slip", 0.5001, "0 to 0.5", () => new FeelProfile(slip: 0.5001));
        Refuses.OutOfRange("blade", 0.0501, "0 to 0.05", () => new FeelProfile(blade: 0.0501));
    }

    [Fact]
    public void Profile_NotANumber_IsRefused()
    {
        Refuses.NotANumber("firm", x => new FeelProfile(firm: x));
        Refuses.NotANumber("light", x => new FeelProfile(light: x));
        Refuses.NotANumber("loose", x => new FeelProfile(loose: x));
        Refuses.NotANumber("spread", x => new FeelProfile(spread: x));
        Refuses.NotANumber("slip", x => new FeelProfile(slip: x));
        Refuses.NotANumber("blade", x => new FeelProfile(blade: x));
    }

    [Theory]
    [InlineData(-0.005, -0.005, 0.017)]
    [InlineData(0.000, -0.005, 0.017)]
    [InlineData(-0.025, 0.017, 0.017)]
    public void Thresholds_ThatDoNotRise_AreRefused(double firm, double light, double loose)
    {
        ArgumentException refusal = Assert.Throws<ArgumentException>(() => new FeelProfile(firm, light, loose));
        Assert.Equal("The thresholds must rise: firm < light < loose.", refusal.Message);
    }

    [Theory]
    [InlineData(Feel.No)]
    [InlineData(Feel.Firm)]
    [InlineData(Feel.Light)]
    [InlineData(Feel.Loose)]
    public void Chance_AnyPlayAndStack_IsTheProbitWithSlips(Feel felt)
    {
        foreach (int leaves in (int[])[1, 4, 10])
        {
            for (double play = -0.15; play < 0.15; play += 0.0031)
            {
                double expected = SlowLaw.ChanceOf(felt, play, leaves, FeelProfile.Default);
                Assert.Equal(expected, FeelProfile.Default.Chance(felt, 0.2 + play, 0.2, leaves), 1e-9);
            }
        }
    }

    [Theory]
    [InlineData(-0.1, 0.01)]
    [InlineData(0, 0.5)]
    [InlineData(0.010, 0.8345)]
    [InlineData(0.1, 0.99)]
    public void ChanceBucketTurns_Gap_GoesFromStuckToTurning(double gap, double expected) =>
        Assert.Equal(expected, FeelProfile.ChanceBucketTurns(gap), 1e-4);

    [Fact]
    public void SpreadOf_Stack_GrowsWithItsLeaves()
    {
        Assert.Equal(Math.Sqrt(45e-6), FeelProfile.Default.StandardDeviationOf(1), 1e-15);
        Assert.Equal(Math.Sqrt(126e-6), FeelProfile.Default.StandardDeviationOf(10), 1e-15);
    }

    [Fact]
    public void FinestScale_SeveralReadings_IsThatOfAllTogether()
    {
        Assert.Equal(double.PositiveInfinity, FeelProfile.Default.FinestScale(ValveReadings.None));
        Assert.Equal(0.01, FeelProfile.Default.FinestScale(Made.Value(0.1, 0.01)), 1e-15);
        Assert.Equal(0.01, FeelProfile.Default.FinestScale(new ValveReadings(bucketTurns: [true])), 1e-15);
        var four = new ValveReadings(values: Enumerable.Repeat(new DirectValue(0.1, 0.01), 4));
        Assert.Equal(0.005, FeelProfile.Default.FinestScale(four), 1e-15);
    }
}
