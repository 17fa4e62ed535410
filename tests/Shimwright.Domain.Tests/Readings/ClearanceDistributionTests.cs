using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

public class ClearanceDistributionTests
{
    /// <summary>A sharp one, a wide one, one with much of a stray in it, and one that nothing is known about.</summary>
    internal static IReadOnlyDictionary<string, ClearanceDistribution> All { get; } = new Dictionary<string, ClearanceDistribution>
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
