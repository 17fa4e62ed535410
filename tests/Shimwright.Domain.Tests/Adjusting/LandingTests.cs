using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Tests.Readings;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Adjusting;

[Proof(Formulas.Shim, Evidence.Computed, "Mean, variance and chance after a change, by the whole distribution.")]
public class LandingTests
{
    private static readonly IReadOnlyDictionary<string, ClearanceDistribution> All = ClearanceDistributionTests.All;

    private static readonly Valvetrain Screws = new(Adjuster.Screw, 1.5, 0.8);

    public static TheoryData<string> Names => [.. All.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void After_Shim_MovesTheMeanAndAddsTheVariance(string name)
    {
        ClearanceDistribution before = All[name];
        ClearanceDistribution after = before.After(ClearanceChange.By(-0.0731, 0.009));
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
            var change = ClearanceChange.By(shift, 0.009);
            double chance = before.InBandAfter(change);
            Assert.Equal(before.After(change).InBand, chance, 1e-4);
            Assert.True(chance <= before.InBandAfterAtMost(change) + 1e-12);
            var turned = ClearanceChange.Turning(Screws, shift / 1.2, Seating.Usual);
            Assert.Equal(before.After(turned).InBand, before.InBandAfter(turned), 1e-4);
        }
    }

    [Fact]
    public void InBandAfter_NextToNoError_IsThePartThatIsMovedIntoTheBand()
    {
        ClearanceDistribution before = EngineEstimate.From(Made.Check(Made.Value(0.10)), finestLater: 0.0002).Valves[0];
        Assert.Equal(before.Probability(0.08, 0.14), before.InBandAfter(ClearanceChange.By(0.04, 0.0002)), 2e-4);
    }

    [Fact]
    public void InBandAfter_HugeShift_IsNothing()
    {
        Assert.Equal(0, All["usual"].InBandAfter(ClearanceChange.By(5, 0.01)));
        Assert.Equal(0, All["usual"].InBandAfterAtMost(ClearanceChange.By(-5, 0.01)));
    }

    [Fact]
    public void LandingChances_WeighedByWhereTheValveIs_AreTheChance()
    {
        ClearanceDistribution before = All["felt"];
        var change = ClearanceChange.By(0.021, 0.006);
        double[] from = before.LandingChances(change);
        Assert.Equal(before.InBandAfter(change), from.Zip(before.Mass.ToArray(), (chance, mass) => chance * mass).Sum(), 1e-12);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void After_Screw_IsTheSameNormalLawAboutItsTargetWhateverWasBefore(string name)
    {
        ClearanceDistribution before = All[name];
        ClearanceDistribution after = before.After(ClearanceChange.Turning(Screws, 0.6, Seating.Usual));
        Assert.Equal(before.Mean + (1.5 * 0.8 * 0.6), after.Mean, 1e-9);
        Assert.Equal(Seating.Usual.ScrewUncertainty, after.StandardDeviation, 1e-7);

        // The 97.5 % point of the normal law, from memory.
        Assert.Equal(after.Mean - (1.959964 * Seating.Usual.ScrewUncertainty), after.Quantile(0.025), 5e-6);
        Assert.Equal(0, after.InBand, 1e-12);
        Assert.Equal(before.Band, after.Band);
    }
}
