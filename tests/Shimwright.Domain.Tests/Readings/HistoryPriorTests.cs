using Shimwright.Domain.Numerics;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Testing;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

public class HistoryPriorTests
{
    [Fact]
    [Long]
    public void From_CheckWithAPast_IsTheMixtureTimesTheReadings()
    {
        var chance = new SeededChance(81);
        for (int run = 0; run < 20; run++)
        {
            var expected = new ExpectedClearance(chance.Uniform(0.08, 0.2), chance.Uniform(0.004, 0.05));
            ValveReadings readings = chance.Happens(0.2) ? ValveReadings.None : Made.Felt((chance.Pick(0.1, 0.13, 0.15), chance.Pick(Feel.No, Feel.Light)));
            ClearanceDistribution fast = EngineEstimate.From(Made.Check(readings).After(new([expected]))).Valves[0];
            double total = 0, mean = 0, inBand = 0;
            for (double c = -1.5005; c < 0.7; c += 0.001)
            {
                double p = 0.9 * StandardNormal.Density((c - expected.Mean) / expected.StandardDeviation) / expected.StandardDeviation;
                p += 0.1 * Unknown(c);
                p *= SlowGrid.Usual.Fingers(FeelProfile.Default.Doubt).Sum(fingers => fingers.Weight * readings.Trials.Aggregate(
                    1.0, (product, t) => product * SlowLaw.ChanceOf(t.Feel, c + fingers.Offset - t.Blade, 1, FeelProfile.Default)));
                total += p;
                mean += p * c;
                inBand += c is >= 0.12 and <= 0.18 ? p : 0;
            }

            Assert.Equal(mean / total, fast.Mean, 1e-4);
            Assert.Equal(inBand / total, fast.InBand, 1e-3);
        }
    }

    // Dust that is suspected and fingers that were calibrated are of this check: what the engine's past says takes nothing from them.
    [Fact]
    public void After_SuspectedDustAndOwnFingers_KeepsBoth()
    {
        EngineCheck check = new(Made.Engine(Made.Valve()), [Made.Value(0.14)], loss: LossPrior.Dust, feel: new FeelProfile(spread: 0.011));
        EngineCheck after = check.After(new([new(0.15, 0.01)]));
        Assert.Equal((check.Loss, check.Feel), (after.Loss, after.Feel));
        Assert.Same(check.Readings[0], after.Readings[0]);
    }

    [Fact]
    public void From_CheckWithAPast_HasIndependentValves()
    {
        EngineCheck check = Made.Check(Made.Value(0.14), Made.Value(0.16)).After(new([new(0.15, 0.01), new(0.15, 0.01)]));
        EngineEstimate both = EngineEstimate.From(check);
        EngineEstimate one = EngineEstimate.From(Made.Check(Made.Value(0.14)).After(new([new(0.15, 0.01)])));
        Assert.Null(both.SharedCauseProbability);
        Assert.Equal(one.Valves[0].Mean, both.Valves[0].Mean, 1e-6);
        Assert.Equal(0.6 * 0.5, both.ChanceOfAll([[0.6], [0.5]]), 1e-15);
        Assert.Equal(0.5, both.ChanceOfAll([null, [0.5]]), 1e-15);
    }

    /// <summary>One value on a forecast that is twice as vague: their precisions add. The tenth of an unknown valve moves that by a hundredth.</summary>
    [Fact]
    public void From_ValueOnAVagueForecast_KnowsWhatBothKnow()
    {
        ClearanceDistribution found = EngineEstimate.From(Made.Check(Made.Value(0.15, 0.01)).After(new([new(0.15, 0.02)]))).Valves[0];
        Assert.Equal(1 / Math.Sqrt((1 / (0.01 * 0.01)) + (1 / (0.02 * 0.02))), found.StandardDeviation, 2e-4);
    }

    /// <summary>A valve that dropped its seat or was read under a wrong name is far off, and nothing of its past argues that away.</summary>
    [Fact]
    public void From_ValueFarFromTheForecast_IsBelieved() =>
        Assert.Equal(0.45, EngineEstimate.From(Made.Check(Made.Value(0.45, 0.01)).After(new([new(0.15, 0.01)]))).Valves[0].Mean, 1e-3);

    [Fact]
    public void From_BucketTurnedByHand_OpensTheGapAndOneThatIsPressedClosesIt()
    {
        static double Found(bool turns) =>
            EngineEstimate.From(Made.Check(new ValveReadings(bucketTurns: [turns])).After(new([new(0.0, 0.02)]))).Valves[0].Mean;
        Assert.True(Found(turns: true) > 0.005, $"{Found(turns: true)}");
        Assert.True(Found(turns: false) < -0.005, $"{Found(turns: false)}");
    }

    [Fact]
    public void Plan_CheckWithAPast_MultipliesTheChancesOfItsValves()
    {
        EngineCheck check = Made.Check(Made.Value(0.14), Made.Value(0.16)).After(new([new(0.13, 0.01), new(0.15, 0.01)]));
        ShimPlan plan = Planner.Plan(new PlanRequest(check, [Made.Marked(2.5), Made.Marked(2.5)])).Chosen;
        Assert.Equal(plan.Valves[0].Chance!.Value * plan.Valves[1].Chance!.Value, plan.ChanceAll, 1e-12);
    }

    [Fact]
    public void Prior_OfAnotherEngine_IsRefused() => Assert.Throws<ArgumentOutOfRangeException>(
        () => Made.Check(Made.Value(0.14)).After(new([new(0.15, 0.01), new(0.15, 0.01)])));

    [Fact]
    public void Expected_WithoutDoubt_IsRefused()
    {
        Refuses.NotANumber("mean", x => new ExpectedClearance(x, 0.01));
        Refuses.NotANumber("standardDeviation", x => new ExpectedClearance(0.1, x));
        Assert.Throws<ArgumentOutOfRangeException>("standardDeviation", () => new ExpectedClearance(0.1, 0));
        Refuses.OutOfRange("strayWeight", 1.1, "0 to 1", () => new HistoryPrior([], 1.1));
    }

    /// <summary>The single valve whose past is unknown, by plain sums over the shared loss.</summary>
    private static double Unknown(double c)
    {
        double own = 0, weights = 0;
        for (int k = 0; k < 240; k++)
        {
            double l = (k + 0.5) * 0.001;
            double weight = Math.Exp(-l / 0.04);
            weights += weight;
            own += weight * SlowLaw.PlaceDensity(c - 0.15, 0.06 / 4, LossPrior.Ordinary.Own, l);
        }

        return (0.97 * own / weights) + (Math.Abs(c - 0.15) <= 0.5 ? 0.03 : 0);
    }
}
