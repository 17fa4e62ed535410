using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

[Proof(Formulas.Estimate, Evidence.Computed, "Plain sums over clearances, losses and offsets, random checks.")]
public class EngineEstimateTests(ITestOutputHelper output)
{
    private static readonly ValveReadings Doubtful = Made.Felt((0.13, Feel.Loose), (0.18, Feel.Firm));

    [Fact]
    [Long]
    public void From_RandomChecks_AgreesWithPlainSumsOverClearancesAndLosses()
    {
        var worst = new Agreement();
        for (int seed = 0; seed < 12; seed++)
        {
            worst.Add(RandomCheck.Draw(seed));
        }

        output.WriteLine($"worst: {worst}");
        Assert.True(worst.Probability < 1e-4 && worst.Moments < 3e-5 && worst.Ends < 1e-4, worst.ToString());
    }

    [Fact]
    public void OneCause_OneSideOnly_IsExactlyEven()
    {
        Assert.Equal(0.5, EngineEstimate.From(Made.Check(Made.Value(0.02), Made.Value(0.04))).SharedCauseProbability);
        Valve exhaust = Made.Valve("E1", ValveSide.Exhaust);
        Assert.Equal(0.5, EngineEstimate.From(new EngineCheck(Made.Engine(exhaust), [Doubtful])).SharedCauseProbability);
    }

    [Theory]
    [InlineData(0.05, 0.05, true)]
    [InlineData(0.15, 0.03, false)]
    public void OneCause_TwoSides_FollowsWhetherTheyLostTheSame(double intake, double exhaust, bool isLikely)
    {
        Valve[] valves =
        [
            .. Enumerable.Range(1, 4).Select(i => Made.Valve($"I{i}")),
            .. Enumerable.Range(1, 4).Select(i => Made.Valve($"E{i}", ValveSide.Exhaust)),
        ];
        EngineCheck check = new(Made.Engine(valves), valves.Select(v => Made.Value(v.Side == ValveSide.Intake ? intake : exhaust, 0.005)));
        double oneCause = EngineEstimate.From(check).SharedCauseProbability!.Value;
        Assert.True(isLikely ? oneCause > 0.7 : oneCause < 0.2, $"{oneCause}");
    }

    [Fact]
    public void From_NothingReadAtAll_IsThePriorWhateverTheOtherSide()
    {
        EngineEstimate estimate = EngineEstimate.From(new EngineCheck(
            Made.Engine(Made.Valve(), Made.Valve("E1", ValveSide.Exhaust)), [ValveReadings.None, ValveReadings.None]));
        Assert.Equal(0.5, estimate.SharedCauseProbability!.Value, 1e-12);

        // The mean of the shared loss, cut off at 0.24, and of the own loss; strays have the middle for their mean.
        double shared = 0.04 - (0.24 / (Math.Exp(6) - 1));
        Assert.Equal(0.15 - (0.97 * (shared + 0.02)), estimate.Valves[0].Mean, 1e-6);
    }

    [Fact]
    public void From_UnreadValve_LearnsFromTheOthersOfItsEngine()
    {
        EngineEstimate estimate = EngineEstimate.From(Made.Check(
            Made.Value(0.05, 0.005), Made.Value(0.045, 0.005), Made.Value(0.055, 0.005), ValveReadings.None));
        EngineEstimate alone = EngineEstimate.From(Made.Check(ValveReadings.None));
        Assert.True(estimate.Valves[3].Mean < alone.Valves[0].Mean - 0.02);
        Assert.True(estimate.Valves[3].InBand < alone.Valves[0].InBand - 0.1);
    }

    [Fact]
    public void From_UnreadValves_LearnMostFromTheirOwnSide()
    {
        Valve[] valves =
        [
            .. Enumerable.Range(1, 5).Select(i => Made.Valve($"I{i}")),
            .. Enumerable.Range(1, 5).Select(i => Made.Valve($"E{i}", ValveSide.Exhaust)),
        ];
        ValveReadings Read(int v) => v % 5 == 4 ? ValveReadings.None : Made.Value(v < 5 ? 0.04 : 0.15, 0.005);
        EngineEstimate estimate = EngineEstimate.From(new EngineCheck(Made.Engine(valves), valves.Select((_, v) => Read(v))));
        Assert.True(estimate.Valves[4].Mean < estimate.Valves[9].Mean - 0.03, $"{estimate.Valves[4].Mean} and {estimate.Valves[9].Mean}");
    }

    /// <summary>Chances that do not depend on what the valves lost together multiply, over both sides and whatever the cause.</summary>
    [Fact]
    public void ChanceOfAll_ChancesThatRestOnNothingShared_Multiply()
    {
        EngineEstimate estimate = EngineEstimate.From(new EngineCheck(
            Made.Engine(Made.Valve(), Made.Valve("E1", ValveSide.Exhaust)), [Made.Value(0.15), Made.Value(0.05)]));
        double[] Always(int v, double chance) => Array.ConvertAll(estimate.KeptGivenCause(v, null), _ => chance);
        Assert.Equal(0.3, estimate.ChanceOfAll([Always(0, 0.6), Always(1, 0.5)]), 1e-9);
    }

    [Fact]
    public void From_KnownTemperature_IsAReadingShiftedByTheHeat()
    {
        var hot = new Engine("Hot", Made.Bucket, [Made.Valve()], 0.001);
        ClearanceEstimate warm = EngineEstimate.From(new EngineCheck(hot, [Made.Value(0.15)], 70)).Valves[0].Summarise();
        ClearanceEstimate cold = EngineEstimate.From(Made.Check(Made.Value(0.10))).Valves[0].Summarise();
        Assert.Equal(cold.Mean, warm.Mean, 1e-9);
        Assert.Equal(cold.Low, warm.Low, 1e-9);
        Assert.Equal(cold.InBand, warm.InBand, 1e-9);
    }

    [Fact]
    public void From_SeveralValues_AreAsGoodAsTheirWeightedMean()
    {
        var both = new ValveReadings(values: [new DirectValue(0.12, 0.01), new DirectValue(0.135, 0.02)]);
        ClearanceEstimate together = EngineEstimate.From(Made.Check(both)).Valves[0].Summarise();
        ClearanceEstimate mean = Made.Clearance(0.123, 0.01 * Math.Sqrt(0.8)).Summarise();
        Assert.Equal(mean.Mean, together.Mean, 1e-6);
        Assert.Equal(mean.StandardDeviation, together.StandardDeviation, 1e-6);
    }

    [Fact]
    public void From_ReadingsInAnyOrder_AreTheSame()
    {
        (double, Feel)[] trials = [(0.10, Feel.Loose), (0.13, Feel.Light), (0.15, Feel.No)];
        ClearanceDistribution there = EngineEstimate.From(Made.Check(Made.Felt(trials))).Valves[0];
        ClearanceDistribution back = EngineEstimate.From(Made.Check(Made.Felt(trials.Reverse()))).Valves[0];
        Assert.Equal(there.Mean, back.Mean, 1e-12);
        Assert.Equal(there.InBand, back.InBand, 1e-12);
    }

    [Fact]
    public void From_ManyTrialsThatAgree_AreNoSurerThanFingersAndBladeAre()
    {
        ClearanceDistribution valve = EngineEstimate.From(Made.Check(Made.Felt(Enumerable.Repeat((0.15, Feel.Light), 400)))).Valves[0];
        Assert.InRange(valve.Mean, 0.145, 0.167);
        Assert.InRange(valve.StandardDeviation, 0.005, 0.008);
        Assert.InRange(valve.InBand, 0.95, 1);
    }
}
