using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

public class ClearanceDistributionTests
{
    /// <summary>A sharp one, a wide one, one with much of a stray in it, and one that nothing is known about.</summary>
    private static readonly Dictionary<string, ClearanceDistribution> All = new()
    {
        ["sharp"] = Made.Clearance(0.121, 0.002),
        ["usual"] = Made.Clearance(0.10),
        ["stray"] = Made.Clearance(0.40, 0.02),
        ["felt"] = EngineEstimate.From(Made.Check(Made.Felt((0.10, Feel.Loose), (0.15, Feel.Firm)))).Valves[0],
        ["unread"] = EngineEstimate.From(Made.Check(ValveReadings.None)).Valves[0],
    };

    public static TheoryData<string> Names => [.. All.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void Probability_WholeLine_IsOne(string name)
    {
        Assert.Equal(1, All[name].Probability(double.NegativeInfinity, double.PositiveInfinity), 1e-6);
        Assert.Equal(0, All[name].Probability(0.2, 0.1));
        Assert.Equal(0, All[name].Probability(5, 6));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Probability_CutInTwoAnywhere_AddsUp(string name)
    {
        ClearanceDistribution valve = All[name];
        for (double cut = -0.4; cut < 0.7; cut += 0.0137)
        {
            double below = valve.Probability(double.NegativeInfinity, cut);
            double above = valve.Probability(cut, double.PositiveInfinity);
            Assert.Equal(1, below + above, 1e-5);
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Quantile_AnyShare_HasThatShareBelow(string name)
    {
        ClearanceDistribution valve = All[name];
        double last = double.NegativeInfinity;
        foreach (double share in (double[])[0.001, 0.025, 0.1, 0.5, 0.9, 0.975, 0.999])
        {
            double quantile = valve.Quantile(share);
            Assert.Equal(share, valve.Probability(double.NegativeInfinity, quantile), 1e-6);
            Assert.True(quantile > last);
            last = quantile;
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Summarise_Estimate_RepeatsTheDistribution(string name)
    {
        ClearanceDistribution valve = All[name];
        ClearanceEstimate estimate = valve.Summarise();
        Assert.Equal(
            (valve.Mean, valve.StandardDeviation, valve.InBand), (estimate.Mean, estimate.StandardDeviation, estimate.InBand));
        Assert.Equal(valve.Probability(0.12, 0.18), estimate.InBand, 1e-12);
        Assert.Equal(0.95, valve.Probability(estimate.Low, estimate.High), 1e-6);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void After_Change_MovesTheMeanAndAddsTheVariance(string name)
    {
        ClearanceDistribution before = All[name];
        ClearanceDistribution after = before.After(-0.0731, 0.009);
        Assert.Equal(before.Mean - 0.0731, after.Mean, 2e-6);
        Assert.Equal(Math.Sqrt(Math.Pow(before.StandardDeviation, 2) + (0.009 * 0.009)), after.StandardDeviation, 2e-5);
        Assert.Equal(1, after.Probability(double.NegativeInfinity, double.PositiveInfinity), 1e-6);
        Assert.Equal(before.Band, after.Band);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void InBandAfter_AnyChange_IsThatOfTheDistributionAfterwards(string name)
    {
        ClearanceDistribution before = All[name];
        for (double shift = -0.3; shift < 0.3; shift += 0.043)
        {
            double chance = before.InBandAfter(shift, 0.009);
            Assert.Equal(before.After(shift, 0.009).InBand, chance, 1e-4);
            Assert.True(chance <= before.InBandAfterAtMost(shift, 0.009) + 1e-12);
        }
    }

    [Fact]
    public void InBandAfter_NextToNoError_IsThePartThatIsMovedIntoTheBand()
    {
        ClearanceDistribution before = EngineEstimate.From(Made.Check(Made.Value(0.10)), finestLater: 0.0002).Valves[0];
        Assert.Equal(before.Probability(0.08, 0.14), before.InBandAfter(0.04, 0.0002), 2e-4);
    }

    [Fact]
    public void InBandAfter_HugeShift_IsNothing()
    {
        Assert.Equal(0, All["usual"].InBandAfter(5, 0.01));
        Assert.Equal(0, All["usual"].InBandAfterAtMost(-5, 0.01));
    }

    [Fact]
    public void At_MeanAndError_IsThatNormalLawForTheSameBand()
    {
        ClearanceDistribution normal = All["usual"].At(0.9, 0.01);
        Assert.Equal(0.9, normal.Mean, 1e-9);
        Assert.Equal(0.01, normal.StandardDeviation, 1e-7);

        // The 97.5 % point of the normal law, from memory.
        Assert.Equal(0.9 - (1.959964 * 0.01), normal.Quantile(0.025), 5e-6);
        Assert.Equal(0, normal.InBand, 1e-12);
    }

    [Theory]
    [InlineData(0.90, ClearanceStatus.In)]
    [InlineData(0.8999, ClearanceStatus.Unsettled)]
    [InlineData(0.1001, ClearanceStatus.Unsettled)]
    [InlineData(0.10, ClearanceStatus.Out)]
    public void Status_Chance_TurnsAtNinetyAndTenPercent(double inBand, ClearanceStatus expected)
    {
        Assert.Equal(expected, new ClearanceEstimate(0.15, 0.01, 0.13, 0.17, inBand).Status);
        Assert.Equal(expected, ClearanceEstimate.StatusOf(inBand));
    }

    [Fact]
    public void Stray_AlwaysEndsHalfAMillimetreFromTheMiddle()
    {
        ClearanceBand band = Made.Band;
        ClearanceDistribution unread = All["unread"];
        Assert.Equal(0, unread.Probability(band.Middle + 0.5, 9), 1e-9);
        Assert.Equal(0.03 * 0.1, unread.Probability(band.Middle + 0.4, band.Middle + 0.5), 1e-7);
    }
}
