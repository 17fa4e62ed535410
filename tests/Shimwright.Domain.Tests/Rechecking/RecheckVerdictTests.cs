using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Rechecking;

public class RecheckVerdictTests
{
    private static readonly ValveReadings Tight = Made.Value(0.08);

    /// <summary>How finely a re-check divides the clearance: no change is finer than the seating.</summary>
    private const double SeatingError = 0.004;

    [Theory]
    [InlineData(1.0)]
    [InlineData(1.5)]
    public void Predicted_ChangedShim_IsTheEstimateMovedWithTheUncertaintyOfTheChange(double ratio)
    {
        var train = new Valvetrain(Adjuster.FingerFollower, ratio);
        EngineCheck before = new(Made.Engine(train, Made.Valve()), [Tight]);
        ClearanceDistribution estimate = EngineEstimate.From(before, SeatingError).Valves[0];
        RecheckedValve valve = Verdict(before, [Adjustment.Fitted(0, Made.Marked(2.60), Made.Measured(2.55))], ValveReadings.None).Valves[0];

        double change = (SeatingError * SeatingError) + (ratio * ratio * ((0.008 * 0.008) + (0.002 * 0.002) + (0.002 * 0.002)));
        Assert.Equal(estimate.Mean + (ratio * 0.05), valve.Predicted.Mean, 1e-6);
        Assert.Equal(Math.Sqrt(Math.Pow(estimate.StandardDeviation, 2) + change), valve.Predicted.StandardDeviation, 1e-6);
    }

    [Fact]
    public void Predicted_SameInstrument_LosesItsSharedPart()
    {
        EngineCheck before = Made.Check(Tight);
        ClearanceDistribution estimate = EngineEstimate.From(before, SeatingError).Valves[0];
        var thick = new Thickness(2.60, Instrument.Calliper);
        RecheckedValve valve = Verdict(
            before, [Adjustment.Fitted(0, thick, new Thickness(2.53, Instrument.Calliper))], ValveReadings.None).Valves[0];

        double change = (SeatingError * SeatingError) + (2 * 0.006 * 0.006);
        Assert.Equal(Math.Sqrt(Math.Pow(estimate.StandardDeviation, 2) + change), valve.Predicted.StandardDeviation, 1e-6);
    }

    [Fact]
    public void Predicted_TurnedScrew_IsKnownAboutItsTargetWhateverItWas()
    {
        var train = new Valvetrain(Adjuster.Screw, 1.2, 0.75);
        EngineCheck before = new(Made.Engine(train, Made.Valve()), [Tight]);
        double mean = EngineEstimate.From(before, SeatingError).Valves[0].Mean;
        RecheckedValve valve = Verdict(before, [Adjustment.Turned(0, 0.08)], ValveReadings.None).Valves[0];

        Assert.Equal(mean + (1.2 * 0.75 * 0.08), valve.Predicted.Mean, 1e-6);
        Assert.Equal(Math.Sqrt((0.004 * 0.004) + (0.010 * 0.010)), valve.Predicted.StandardDeviation, 1e-6);
    }

    [Fact]
    public void Estimate_UnchangedValveNotReadAgain_IsItsOwnPosterior()
    {
        EngineCheck before = Made.Check(Tight, Made.Value(0.16));
        EngineEstimate estimate = EngineEstimate.From(before, SeatingError);
        RecheckVerdict verdict = Verdict(
            before, [Adjustment.Fitted(0, Made.Marked(2.60), Made.Marked(2.53))], Made.Value(0.15), ValveReadings.None);

        Assert.Equal(estimate.Valves[1].Mean, verdict.Valves[1].Estimate.Mean, 1e-6);
        Assert.Equal(estimate.Valves[1].InBand, verdict.Valves[1].Estimate.InBand, 1e-4);
        Assert.Null(verdict.Valves[1].Surprise);
        Assert.False(verdict.Valves[1].IsSurprising);
    }

    [Fact]
    public void Estimate_UnchangedValveReadAgain_TakesBothReadingsTogether()
    {
        RecheckVerdict verdict = Verdict(Made.Check(Made.Value(0.16, 0.01)), [], Made.Value(0.15, 0.02));
        ClearanceEstimate both = EngineEstimate.From(
            Made.Check(new ValveReadings(values: [new DirectValue(0.16, 0.01), new DirectValue(0.15, 0.02)]))).Valves[0].Summarise();
        Assert.Equal(both.Mean, verdict.Valves[0].Estimate.Mean, 1e-6);
        Assert.Equal(both.StandardDeviation, verdict.Valves[0].Estimate.StandardDeviation, 1e-6);
        Assert.Equal(both.InBand, verdict.Valves[0].Estimate.InBand, 1e-4);
    }

    [Fact]
    public void Estimate_ChangedValveNotReadAgain_IsThePredictionWithOneInTwentyAstray()
    {
        RecheckedValve valve = Verdict(
            Made.Check(Tight), [Adjustment.Fitted(0, Made.Measured(2.60), Made.Measured(2.53))], ValveReadings.None).Valves[0];

        Assert.Equal((0.95 * valve.Predicted.Mean) + (0.05 * 0.15), valve.Estimate.Mean, 1e-6);
        Assert.Equal((0.95 * valve.Predicted.InBand) + (0.05 * 0.06), valve.Estimate.InBand, 1e-6);
        Assert.Null(valve.Surprise);
    }

    [Theory]
    [InlineData(0.14)]
    [InlineData(0.19)]
    [InlineData(0.40)]
    public void Estimate_ChangedValveReadAgain_IsBayesOnTheMixture(double read)
    {
        const double u = 0.01;
        RecheckedValve valve = Verdict(
            Made.Check(Tight), [Adjustment.Fitted(0, Made.Measured(2.60), Made.Measured(2.53))], Made.Value(read, u)).Valves[0];

        // Plain sums over cells: the prediction for all cells from its own distribution function.
        double mass = 0;
        double mean = 0;
        double inBand = 0;
        for (double c = -0.35 + 0.0001; c < 0.65; c += 0.0002)
        {
            double prior = (0.95 * valve.Predicted.Probability(c - 0.0001, c + 0.0001)) + (0.05 * 0.0002);
            double joint = prior * StandardNormal.Density((read - c) / u);
            mass += joint;
            mean += joint * c;
            inBand += c is > 0.12 and < 0.18 ? joint : 0;
        }

        Assert.Equal(mean / mass, valve.Estimate.Mean, 1e-5);
        Assert.Equal(inBand / mass, valve.Estimate.InBand, 5e-4);
    }

    [Fact]
    public void On_WarmEngine_CountsTheHeatOut()
    {
        var engine = new Engine("Warm", Made.Bucket, [Made.Valve()], 0.001);
        EngineCheck before = new(engine, [Tight]);
        Adjustment[] changes = [Adjustment.Fitted(0, Made.Measured(2.60), Made.Measured(2.53))];
        RecheckedValve cold = Verdict(before, changes, Made.Value(0.15)).Valves[0];
        RecheckedValve warm = RecheckVerdict.On(
            new Recheck(before, changes, [Made.Value(0.19)], 60, Seating.Usual)).Valves[0];
        Assert.Equal(cold.Estimate.Mean, warm.Estimate.Mean, 1e-9);
        Assert.Equal(cold.Surprise!.Value, warm.Surprise!.Value, 1e-9);
    }

    [Fact]
    public void Passes_EveryValveAtLeastEven_AndNotOtherwise()
    {
        EngineCheck before = Made.Check(Tight, Made.Value(0.16));
        Adjustment[] changes = [Adjustment.Fitted(0, Made.Measured(2.60), Made.Measured(2.53))];
        RecheckVerdict good = Verdict(before, changes, Made.Value(0.15), Made.Value(0.155));
        Assert.True(good.Passes);
        Assert.All(good.Valves, v => Assert.True(v.Passes));

        RecheckVerdict bad = Verdict(before, changes, Made.Value(0.25), Made.Value(0.155));
        Assert.False(bad.Passes);
        Assert.Equal([false, true], bad.Valves.Select(v => v.Passes));
        Assert.True(bad.Valves[0].IsSurprising);
        Assert.False(bad.Valves[1].IsSurprising);
    }

    /// <summary>The prediction says 0.15 so surely that the chance is there; that the thinnest blade did not enter is all that was felt.</summary>
    [Fact]
    public void Passes_ChangedValveAtWhichNoBladeEntered_WasFeltTooLittle()
    {
        RecheckedValve valve = Verdict(
            Made.Check(Made.Value(0.08, 0.003)), [Adjustment.Fitted(0, Made.Measured(2.60), Made.Measured(2.53))], Made.Felt((0.18, Feel.No))).Valves[0];
        Assert.InRange(valve.Estimate.InBand, 0.9, 1);
        Assert.InRange(valve.Alone!.Value, 0.05, 0.25);
        Assert.Equal(PassResult.FeltTooLittle, valve.Result);
    }

    [Fact]
    public void Passes_FloorOfTheBench_IsTheOneThatCounts()
    {
        Recheck recheck = new(Made.Check(Made.Value(0.16, 0.02)), [], [ValveReadings.None], 20, Seating.Usual);
        double inBand = RecheckVerdict.On(recheck).Valves[0].Estimate.InBand;
        Assert.True(RecheckVerdict.On(recheck with { Pass = new(inBand - 0.001) }).Passes);
        Assert.False(RecheckVerdict.On(recheck with { Pass = new(inBand + 0.001) }).Passes);
    }

    /// <summary>
    /// Both valves were felt by the same fingers, so that they are in band or out together more often than apart: the chance of both by
    /// plain sums over what the fingers may be off by and over cells of the clearances.
    /// </summary>
    [Fact]
    public void ChanceAll_TwoValvesFeltByTheSameFingers_CountsWhatTheyShare()
    {
        EngineCheck before = Made.Check(Made.Value(0.125, 0.02), Made.Value(0.125, 0.02));
        ValveReadings[] felt = [Made.Felt((0.10, Feel.Loose), (0.13, Feel.Firm)), Made.Felt((0.08, Feel.Loose), (0.13, Feel.Firm))];
        RecheckVerdict verdict = Verdict(before, [], felt);
        EngineEstimate prior = EngineEstimate.From(before, SeatingError);
        double all = 0, evidence = 0;
        for (double o = -0.025; o < 0.0251; o += 0.001)
        {
            (double In, double All)[] valves = [.. felt.Select((r, v) => Under(prior.Valves[v], r, o))];
            double weight = StandardNormal.Density(o / 0.005);
            all += weight * valves[0].In * valves[1].In;
            evidence += weight * valves[0].All * valves[1].All;
        }

        Assert.Equal(all / evidence, verdict.ChanceAll, 1e-3);
        Assert.True(verdict.ChanceAll > (verdict.Valves[0].Estimate.InBand * verdict.Valves[1].Estimate.InBand) + 0.01);
    }

    /// <summary>The chance of what was felt, with the clearance in band and anywhere, where the fingers are off by so much.</summary>
    private static (double In, double All) Under(ClearanceDistribution prior, ValveReadings felt, double offset)
    {
        double inBand = 0, all = 0;
        for (double c = -0.2 + 0.00025; c < 0.6; c += 0.0005)
        {
            double joint = prior.Probability(c - 0.00025, c + 0.00025)
                * felt.Trials.Aggregate(1.0, (p, t) => p * FeelProfile.Default.Chance(t.Feel, c + offset, t.Blade));
            all += joint;
            inBand += c is > 0.12 and < 0.18 ? joint : 0;
        }

        return (inBand, all);
    }

    [Theory]
    [InlineData(0.0099, true)]
    [InlineData(0.01, false)]
    [InlineData(null, false)]
    public void IsSurprising_BelowOneInAHundred_LooksAgain(double? surprise, bool isSurprising)
    {
        var estimate = new ClearanceEstimate(0.15, 0.01, 0.13, 0.17, 0.9);
        Assert.Equal(isSurprising, new RecheckedValve(Made.Valve(), Made.Clearance(0.15), estimate, 0.9, PassResult.Passes, surprise).IsSurprising);
    }

    private static RecheckVerdict Verdict(EngineCheck before, Adjustment[] changes, params ValveReadings[] readings) =>
        RecheckVerdict.On(new Recheck(before, changes, readings, 20, Seating.Usual));
}
