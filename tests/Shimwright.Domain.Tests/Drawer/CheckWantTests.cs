using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Drawer;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Xunit;

namespace Shimwright.Domain.Tests.Drawer;

public class CheckWantTests
{
    private static readonly ClearanceBand Band = new(0.10, 0.20);

    [Theory]
    [InlineData(0.06, 1, 2.41)]
    [InlineData(0.06, 1.5, 2.44)]
    [InlineData(0.24, 1, 2.59)]
    public void Of_ClearanceThatIsSure_WantsTheShimForTheMiddle(double clearance, double ratio, double thickness)
    {
        ThicknessWant want = CheckWant.Of(new(clearance, 0, 1e-10, 0, 0), Band, new Leverage(ratio), 2.5, 0, 0.5, 0.01);
        Assert.Equal(thickness, want.Middle, 1e-9);
        Assert.Equal(0.05 / ratio, want.Tolerance, 1e-12);
        Assert.Equal(1, want.Wanted, 1e-9);
    }

    /// <summary>With a floor of one half and a band far wider than the error of reading, the shim stays where the estimate lies in the band.</summary>
    [Fact]
    public void Of_FloorOfOneHalf_WantsAShimWhereTheEstimateWillLieOutside()
    {
        ThicknessWant want = CheckWant.Of(new(0.11, 0, 0.0004, 0, 0), Band, new Leverage(1), 2.5, 0, 0.5, 0.01);
        double spread = 0.0004 / Math.Sqrt(0.0005);
        Assert.Equal(StandardNormal.Cdf(-0.01 / spread) + StandardNormal.Cdf(-0.09 / spread), want.Wanted, 1e-6);
        Assert.Equal(spread, want.StandardDeviation, 1e-12);
        Assert.Equal(want.Wanted, want.Between(0, 2.45) + want.Between(2.55, 9), 1e-9);
        Assert.Equal(0, want.Between(2.4501, 2.5499), 1e-6);
    }

    [Fact]
    public void Of_HigherFloor_WantsMore()
    {
        double[] wanted = [.. new[] { 0.0, 0.3, 0.5, 0.8, 0.95, 1 }.Select(f => CheckWant.Of(new(0.12, 0, 0.0004, 0, 0), Band, new Leverage(1), 2.5, 0.008, f, 0.01).Wanted)];
        Assert.Equal(0, wanted[0], 1e-9);
        Assert.Equal(1, wanted[^1], 1e-9);
        Assert.Equal(wanted.Order(), wanted);
    }

    [Fact]
    public void ChangeBelow_WhatASecondRoundCosts_RaisesTheFloor()
    {
        Assert.Equal(0.97 - (28 / 115.0), CheckWant.ChangeBelow(0.5, 0.97, 28, 115), 1e-12);
        Assert.Equal(0.5, CheckWant.ChangeBelow(0.5, 0.97, 100, 115));
        Assert.Equal(0.5, CheckWant.ChangeBelow(0.5, 0.97, 28, 0));
    }

    /// <summary>The nearest size lies a quarter of a step off on average; at the gap that is as much as the lever makes of it. Φ(1) - Φ(-4) from tables.</summary>
    [Fact]
    public void Fitted_StepOfSizes_IsHalfOfHalfAStepOffAtTheGap() =>
        Assert.Equal(0.8413447 - 0.0000317, CheckWant.Fitted(Band, new Leverage(1.5), 0.08, 0.02), 1e-6);

    /// <summary>What blurs the shim moves sizes about and leaves how many are wanted as it is.</summary>
    [Fact]
    public void Between_BlurredThickness_IsSpreadAndNothingIsLost()
    {
        var sharp = new ThicknessWant(2.43, 0.02, 0.05, kept: (2.45, 2.55));
        var blurred = new ThicknessWant(2.43, 0.02, 0.05, kept: (2.45, 2.55), blur: 0.012);
        Assert.Equal(sharp.Wanted, blurred.Wanted, 1e-12);
        Assert.Equal(sharp.Wanted, blurred.Between(2, 3), 1e-9);
        Assert.True(blurred.Between(2.45, 2.5) > 0.03 && sharp.Between(2.4501, 2.5) < 1e-3);

        // A slow sum over both.
        const int steps = 4000;
        double slow = 0;
        for (int i = 0; i < steps; i++)
        {
            double error = (-6 + (12 * (i + 0.5) / steps)) * 0.012;
            slow += 12.0 / steps * StandardNormal.Density(error / 0.012) * sharp.Between(2.42 - error, 2.47 - error);
        }

        Assert.Equal(slow, blurred.Between(2.42, 2.47), 1e-3);
    }

    /// <summary>The tables that fleets are added up with say the same as the law itself.</summary>
    [Fact]
    public void UpTo_AnyWant_IsTheLawItself()
    {
        var chance = new SeededChance(77);
        for (int i = 0; i < 300; i++)
        {
            double middle = chance.Uniform(2.3, 2.7), from = chance.Uniform(2.4, 2.5);
            var want = new ThicknessWant(
                middle, chance.Uniform(0.002, 0.04), 0.05, chance.Uniform(0.2, 1), chance.Happens(0.7) ? (from, from + chance.Uniform(0, 0.1)) : null, chance.Pick(0, 0.0028, 0.012));
            want = chance.Happens(0.5) ? want.Or(new(want.Middle, want.StandardDeviation, 0.05, want.Chance, (from, from + 0.01), want.Blur), chance.Uniform()) : want;
            double at = chance.Uniform(2.2, 2.8);
            Assert.Equal(want.Between(double.NegativeInfinity, at), want.UpTo(at), 2e-9);
            Assert.Equal(want.Wanted, want.UpTo(double.MaxValue), 2e-9);
        }
    }

    /// <summary>A cover that surely comes off for another valve is paid for; one that surely does not is not.</summary>
    [Fact]
    public void BehindOneCover_AnotherThatIsSure_TakesTheCoverAsPaid()
    {
        ThicknessWant sure = new(2.4, 0.001, 0.05, kept: (2.45, 2.55)), never = new(2.5, 0.001, 0.05, kept: (2.45, 2.55));
        ThicknessWant alone = new(2.47, 0.02, 0.05, kept: (2.45, 2.55)), along = new(2.47, 0.02, 0.05, kept: (2.46, 2.54));
        Assert.Equal(along.Wanted, CheckWant.BehindOneCover([(sure, sure), (alone, along)])[1].Wanted, 1e-9);
        Assert.Equal(alone.Wanted, CheckWant.BehindOneCover([(never, never), (alone, along)])[1].Wanted, 1e-9);
        Assert.Equal(alone.Wanted, Assert.Single(CheckWant.BehindOneCover([(alone, along)])).Wanted, 1e-12);
        ThicknessWant half = CheckWant.BehindOneCover([(new(2.45, 0.001, 0.05, kept: (2.45, 2.55)), never), (alone, along)])[1];
        Assert.Equal((alone.Wanted + along.Wanted) / 2, half.Wanted, 1e-9);
        Assert.Equal((alone.Between(2.3, 2.44) + along.Between(2.3, 2.44)) / 2, half.Between(2.3, 2.44), 1e-9);
    }
}
