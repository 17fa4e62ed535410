using Shimwright.Domain.Depth;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Uncertainty;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Depth;

[Proof(Formulas.Depth, Evidence.Computed, "The gap from its parts, each moved in turn.")]
public class DepthReadingTests
{
    private static readonly Camshaft Usual = new(
        new("saddle", 12.500, 0.004, 8), new("journal", 24.960, 0.002, 20), new("base circle", 30.000, 0.003, 20), new("play", 0.030, 0.008));

    [Fact]
    public void Under_UsualSizes_IsTheGapBetweenBucketAndBaseCircle()
    {
        // The axis lies 12.5 - 12.48 = 0.02 below the face, the base circle ends at 15.02, lifted by 0.03 at 14.99.
        UncertaintyBudget budget = DepthReading.Under(Bucket(15.140), Usual);

        Assert.Equal(0.150, budget.Value, 1e-9);
        Assert.Equal(Math.Sqrt(0.000025 + 0.000016 + 0.000001 + 0.00000225 + 0.000064), budget.Combined, 1e-12);
        Assert.Equal([1, -1, 0.5, -0.5, 1], budget.Lines.Select(l => l.Sensitivity));
    }

    [Fact]
    public void Under_ValveHeldOpen_IsNegative() => Assert.Equal(-0.090, DepthReading.Under(Bucket(14.900), Usual).Value, 1e-9);

    [Fact]
    public void Under_ShimOut_TakesItsThicknessOff()
    {
        var shim = new InputQuantity("shim", 2.60, 0.003);
        UncertaintyBudget with = DepthReading.Under(new ValveDepth(new("bucket", 17.740, 0.005), shim), Usual);

        Assert.Equal(DepthReading.Under(Bucket(15.140), Usual).Value, with.Value, 1e-9);
        Assert.True(with.Combined > DepthReading.Under(Bucket(15.140), Usual).Combined);
    }

    [Theory]
    [InlineData(0.01, 0, 0, 0, 0.01)]
    [InlineData(0, 0.01, 0, 0, -0.01)]
    [InlineData(0, 0, 0.02, 0, 0.01)]
    [InlineData(0, 0, 0, 0.02, -0.01)]
    public void Under_EachPart_MovesTheClearanceTheRightWay(double bucket, double saddle, double journal, double circle, double by)
    {
        var moved = new Camshaft(
            new("saddle", 12.5 + saddle, 0), new("journal", 24.96 + journal, 0), new("base circle", 30 + circle, 0), Usual.Play);
        Assert.Equal(0.15 + by, DepthReading.Under(Bucket(15.14 + bucket), moved).Value, 1e-9);
    }

    [Fact]
    public void Against_KnownValve_NeedsNoCamshaftAndAgreesWithIt()
    {
        ValveDepth known = Bucket(15.120), other = Bucket(14.950);
        double clearance = DepthReading.Under(known, Usual).Value;

        UncertaintyBudget against = DepthReading.Against(other, known, new("clearance of the known valve", clearance, 0.006));

        Assert.Equal(DepthReading.Under(other, Usual).Value, against.Value, 1e-9);
        Assert.Equal(Math.Sqrt(0.000036 + 0.000025 + 0.000025), against.Combined, 1e-12);
    }

    [Fact]
    public void Under_TwoValvesOfOneCamshaft_ShareItsErrors()
    {
        // The difference of the two clearances rests on the two depths alone: u² = u1² + u2² - 2·r·u1·u2.
        UncertaintyBudget one = DepthReading.Under(Bucket(15.1), Usual), other = DepthReading.Under(Bucket(15.2), Usual);
        double r = one.CorrelationWith(other);

        Assert.InRange(r, 0.6, 0.9);
        double difference = (one.Combined * one.Combined) + (other.Combined * other.Combined) - (2 * r * one.Combined * other.Combined);
        Assert.Equal(2 * 0.005 * 0.005, difference, 1e-12);
    }

    [Fact]
    public void Under_ManyMeasurements_AreAsFarOffAsTheBudgetSays()
    {
        var chance = new SeededChance(51);
        UncertaintyBudget budget = DepthReading.Under(Bucket(15.14), Usual);
        const int rounds = 20_000;
        double squares = 0;
        for (int k = 0; k < rounds; k++)
        {
            double c = chance.Normal(15.14, 0.005) - chance.Normal(12.5, 0.004) + (chance.Normal(24.96, 0.002) / 2)
                - (chance.Normal(30, 0.003) / 2) + chance.Normal(0.03, 0.008);
            squares += (c - 0.15) * (c - 0.15);
        }

        Assert.Equal(budget.Combined, Math.Sqrt(squares / rounds), 4 * budget.Combined / Math.Sqrt(2 * rounds));
    }

    [Fact]
    public void ToDirectValue_OfABudget_KeepsValueAndUncertainty()
    {
        DirectValue value = DepthReading.ToDirectValue(DepthReading.Under(Bucket(14.9), Usual));

        Assert.Equal(-0.09, value.Millimetres, 1e-9);
        Assert.Equal(DepthReading.Under(Bucket(14.9), Usual).Combined, value.Uncertainty);
    }

    [Fact]
    public void ToDirectValue_OfExactParts_HasTheLeastUncertainty() => Assert.Equal(
        DirectValue.LeastUncertainty,
        DepthReading.ToDirectValue(UncertaintyBudget.OfSum([new(new("clearance", 0.1, 0), 1)])).Uncertainty);

    [Fact]
    public void ToDirectValue_OfAnUncertaintyBeyondAllUse_IsRefused() => Assert.Throws<ArgumentOutOfRangeException>(
        () => DepthReading.ToDirectValue(UncertaintyBudget.OfSum([new(new("clearance", 0.1, 0.3), 1)])));

    private static ValveDepth Bucket(double depth) => new(new InputQuantity("bucket", depth, 0.005, 8));
}
