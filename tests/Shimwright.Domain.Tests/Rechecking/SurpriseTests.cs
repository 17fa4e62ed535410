using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Rechecking;

[Proof(Formulas.Recheck, Evidence.Computed, "Tails by listing all outcomes.")]
public class SurpriseTests
{
    private static readonly double[] Blades = [0.13, 0.15, 0.18, 0.10, 0.20, 0.15];

    [Theory]
    [InlineData(0.15, 0.010)]
    [InlineData(0.19, 0.010)]
    [InlineData(0.10, 0.005)]
    public void Surprise_Value_IsTheTwoSidedTailUnderThePrediction(double value, double u)
    {
        RecheckedValve valve = Fitted(Made.Value(value, u));
        double z = Math.Abs(value - valve.Predicted.Mean) / Math.Sqrt(Math.Pow(valve.Predicted.StandardDeviation, 2) + (u * u));
        Assert.Equal(2 * StandardNormal.Cdf(-z), valve.Surprise!.Value, 1e-12);
    }

    [Fact]
    public void Surprise_SeveralValues_CountAsTheirWeightedMean()
    {
        double? together = Fitted(new ValveReadings(values: [new DirectValue(0.18, 0.01), new DirectValue(0.195, 0.02)])).Surprise;
        Assert.Equal(Fitted(Made.Value(0.183, 0.01 * Math.Sqrt(0.8))).Surprise!.Value, together!.Value, 1e-6);
    }

    [Theory]
    [InlineData(Feel.Light)]
    [InlineData(Feel.No)]
    [InlineData(Feel.Loose, Feel.Firm)]
    [InlineData(Feel.Loose, Feel.Loose, Feel.Loose)]
    [InlineData(Feel.Loose, Feel.Light, Feel.No, Feel.Loose, Feel.Firm)]
    public void Surprise_Trials_IsTheChanceOfAllFeelsNoLikelier(params Feel[] felt)
    {
        ValveReadings readings = Made.Felt(felt.Select((f, i) => (Blades[i], f)));
        RecheckedValve valve = Fitted(readings);
        Assert.Equal(ByEnumeration(valve.Predicted, Blades[..felt.Length], felt), valve.Surprise!.Value, 2e-4);
    }

    /// <summary>A stack of leaves feels less sharply than one blade, so the same feel surprises less.</summary>
    [Fact]
    public void Surprise_StackOfLeaves_IsThatOfItsOwnFeel()
    {
        RecheckedValve one = Fitted(new ValveReadings([new BladeTrial(0.15, Feel.Loose)]));
        RecheckedValve stack = Fitted(new ValveReadings([new BladeTrial(0.15, Feel.Loose, leaves: 9)]));
        Assert.Equal(ByEnumeration(stack.Predicted, [0.15], [Feel.Loose], leaves: 9), stack.Surprise!.Value, 2e-4);
        Assert.True(stack.Surprise > 1.3 * one.Surprise, $"{stack.Surprise} of nine leaves, {one.Surprise} of one.");
    }

    /// <summary>
    /// A cocked shim lets no blade in where one was expected to be loose. With one slip in fifty that was never rarer than 0.015, which is
    /// no reason to look again.
    /// </summary>
    [Fact]
    public void Surprise_OneTrialFarFromItsPrediction_IsFarBelowAnySlip() =>
        Assert.InRange(Fitted(Made.Felt((0.08, Feel.No))).Surprise!.Value, 0, 1e-6);

    /// <summary>Repeats of one blade share its error: all outcomes by plain sums over the error too.</summary>
    [Theory]
    [InlineData(Feel.Loose, Feel.Loose, Feel.Loose)]
    [InlineData(Feel.Firm, Feel.Loose)]
    [InlineData(Feel.Firm, Feel.Firm, Feel.Light, Feel.Firm)]
    public void Surprise_RepeatsOfOneBlade_CountItsErrorOnce(params Feel[] felt)
    {
        RecheckedValve valve = Fitted(Made.Felt(felt.Select(f => (0.15, f))));
        var fingers = new FeelProfile(slip: 0, blade: 0);
        (double Gap, double Mass)[] cells = Cells(valve.Predicted);
        double ChanceOf(Feel[] outcome) => cells.Sum(cell => cell.Mass * Errors.Sum(e =>
            e.Weight * outcome.Aggregate(1.0, (p, f) => p * fingers.Chance(f, cell.Gap + e.Error, 0.15))));
        double asFelt = ChanceOf(felt);
        double slow = AllOutcomes(felt.Length).Select(ChanceOf).Where(p => p <= asFelt * (1 + 1e-9)).Sum();
        Assert.Equal(slow, valve.Surprise!.Value, 5e-4);
    }

    private static readonly (double Error, double Weight)[] Errors =
        [.. Enumerable.Range(-10, 21).Select(k => (k * 0.0015, 0.5 * StandardNormal.Density(k * 0.5)))];

    [Fact]
    public void Surprise_MoreThanFiveTrials_CountsTheLastFive()
    {
        Feel[] felt = [Feel.No, Feel.Light, Feel.No, Feel.Loose, Feel.Firm, Feel.Light];
        RecheckedValve six = Fitted(Made.Felt(felt.Select((f, i) => (Blades[i], f))));
        RecheckedValve lastFive = Fitted(Made.Felt(felt.Select((f, i) => (Blades[i], f)).Skip(1)));
        Assert.Equal(lastFive.Surprise!.Value, six.Surprise!.Value, 1e-4);
    }

    [Fact]
    public void Surprise_LikeliestFeels_IsNone() =>
        Assert.Equal(1, Fitted(Made.Felt((0.10, Feel.Loose), (0.20, Feel.No))).Surprise!.Value, 1e-6);

    [Theory]
    [InlineData(0.19, Feel.Light)]
    [InlineData(0.15, Feel.No)]
    [InlineData(0.15, Feel.Light)]
    public void Surprise_ValueAndTrials_IsTwiceTheSmallerAtMostOne(double value, Feel felt)
    {
        var both = new ValveReadings([new BladeTrial(0.13, felt)], [new DirectValue(value)]);
        RecheckedValve valve = Fitted(both);
        double ofValue = 2 * StandardNormal.Cdf(
            -Math.Abs(value - valve.Predicted.Mean) / Math.Sqrt(Math.Pow(valve.Predicted.StandardDeviation, 2) + (0.01 * 0.01)));
        double ofTrials = ByEnumeration(valve.Predicted, [0.13], [felt]);
        Assert.Equal(Math.Min(1, 2 * Math.Min(ofValue, ofTrials)), valve.Surprise!.Value, 4e-4);
    }

    [Fact]
    public void Surprise_NothingFeltOrMeasured_IsNull()
    {
        Assert.Null(Fitted(ValveReadings.None).Surprise);
        Assert.Null(Fitted(new ValveReadings(bucketTurns: [true])).Surprise);
    }

    [Fact]
    public void Surprise_Strays_DoNotSoftenIt()
    {
        // Under the prior with its twentieth astray such a value would not be rarer than one in a thousand.
        Assert.InRange(Fitted(Made.Value(0.35)).Surprise!.Value, 0, 1e-6);
    }

    private static RecheckedValve Fitted(ValveReadings readings) => RecheckVerdict.On(new Recheck(
        Made.Check(Made.Value(0.08, 0.005)),
        [Adjustment.Fitted(0, Made.Measured(2.60), Made.Measured(2.53))],
        [readings],
        20,
        Seating.Usual)).Valves[0];

    /// <summary>All outcomes on these blades, each with its chance from plain sums over the predicted clearances.</summary>
    private static double ByEnumeration(ClearanceDistribution predicted, double[] blades, Feel[] felt, int leaves = 1)
    {
        (double Gap, double Mass)[] cells = Cells(predicted);
        var fingers = new FeelProfile(slip: 0);
        double ChanceOf(IEnumerable<Feel> outcome) => cells.Sum(cell =>
            cell.Mass * blades.Zip(outcome).Aggregate(1.0, (p, t) => p * fingers.Chance(t.Second, cell.Gap, t.First, leaves)));
        double asFelt = ChanceOf(felt);
        return AllOutcomes(blades.Length).Select(ChanceOf).Where(p => p <= asFelt * (1 + 1e-9)).Sum();
    }

    /// <summary>The gaps that fingers may feel, which may be off by N(0, 0.005²).</summary>
    private static (double Gap, double Mass)[] Cells(ClearanceDistribution predicted)
    {
        const double cell = 0.0005;
        double[] clearances = [.. Enumerable.Range(0, 2000).Select(i => -0.35 + ((i + 0.5) * cell)).Select(c => predicted.Probability(c - (cell / 2), c + (cell / 2)))];
        double[] felt = new double[clearances.Length];
        foreach (int off in Enumerable.Range(-50, 101))
        {
            double weight = StandardNormal.Density(off * cell / 0.005) * cell / 0.005;
            for (int i = 0; i < felt.Length; i++)
            {
                felt[i] += i - off >= 0 && i - off < clearances.Length ? weight * clearances[i - off] : 0;
            }
        }

        return [.. felt.Select((mass, i) => (-0.35 + ((i + 0.5) * cell), mass))];
    }

    private static IEnumerable<Feel[]> AllOutcomes(int trials) => trials == 0
        ? [[]]
        : AllOutcomes(trials - 1).SelectMany(_ => Enum.GetValues<Feel>(), (rest, feel) => (Feel[])[.. rest, feel]);
}
