using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Tests.Readings;
using Shimwright.Domain.Wear;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Wear;

[Proof(Formulas.Filter, Evidence.Computed, "The plain Kalman filter, and the moments of the mixture.")]
public class WearFilterTests
{
    [Fact]
    public void Follow_NormalReadingsAndNoStrays_IsThePlainKalmanFilter()
    {
        var chance = new SeededChance(71);
        for (int run = 0; run < 20; run++)
        {
            WearState start = WearState.At(chance.Uniform(0.12, 0.18), 1e-4, Kept.Wear.RateOf(ValveSide.Intake));
            var plain = new PlainKalman(start, Kept.Wear.Diffusion);
            List<WearCheck> checks = [Kept.Check(0, ValveReadings.None)];
            List<WearState> expected = [start];
            double clock = 0, error = 0, shift = 0;
            for (int k = 1; k < 20; k++)
            {
                plain.Move(shift, error);
                double time = chance.Uniform(0, 2 * Kept.Interval);
                double value = plain.Now.Clearance + chance.Normal(0, 0.012);
                bool isRead = chance.Happens(0.8);
                plain.Read(time, isRead ? value : null, 0.01);
                expected.Add(plain.Now);
                (shift, error) = (0, 0);
                Adjustment[] changes = [];
                if (plain.Now.Clearance < 0.12)
                {
                    changes = [Kept.Shim(2.6, 2.55)];
                    (shift, error) = (0.05, Math.Sqrt((0.004 * 0.004) + (2 * 0.002 * 0.002)));
                }

                checks.Add(Kept.Check(clock += time, isRead ? Made.Value(value) : ValveReadings.None, changes));
            }

            EngineWear wear = WearFilter.Follow([start], checks, Kept.Wear, strayWeight: 0);
            Assert.All(expected.Zip(wear.Valves[0]), pair => Kept.AssertEqual(pair.First, pair.Second.Found, 1e-9));
        }
    }

    [Fact]
    public void Follow_ManyReadingsInNoTime_StaysThePlainFilterAsTheDoubtShrinks()
    {
        WearState start = WearState.At(0.15, 1e-4, Kept.Wear.RateOf(ValveSide.Intake));
        var plain = new PlainKalman(start, Kept.Wear.Diffusion);
        List<WearCheck> checks = [Kept.Check(0, ValveReadings.None)];
        for (int k = 0; k < 200; k++)
        {
            plain.Read(0, 0.14, 0.01);
            checks.Add(Kept.Check(0, Made.Value(0.14)));
        }

        EngineWear wear = WearFilter.Follow([start], checks, Kept.Wear, strayWeight: 0);
        Kept.AssertEqual(plain.Now, wear.Now[0], 1e-9);
    }

    [Fact]
    public void Follow_FirstCheck_IsTheEstimateAndTheUsualRate()
    {
        WearCheck check = Kept.Check(12, Made.Felt((0.1, Feel.Loose), (0.13, Feel.Light)));
        WearState state = WearFilter.Follow([check], Kept.Wear).Now[0];
        ClearanceDistribution estimate = EngineEstimate.From(check.Check.WithoutOffsets).Valves[0];
        Assert.Equal(estimate.Mean, state.Clearance, 1e-12);
        Assert.Equal(estimate.StandardDeviation, state.ClearanceSpread, 1e-12);
        Assert.Equal((0.02 / 30, 0, 0.02 / 30), (state.Rate, state.Covariance, state.RateSpread));
    }

    [Fact]
    [Long]
    public void Follow_FeltReadings_TakeTheMomentsOfTheMixture()
    {
        var chance = new SeededChance(72);
        for (int run = 0; run < 25; run++)
        {
            WearState start = WearState.At(chance.Uniform(0.1, 0.2), Squares.Of(chance.Uniform(0.003, 0.02)), Kept.Wear.RateOf(ValveSide.Intake));
            ValveReadings readings = Made.Felt((chance.Pick(0.08, 0.1, 0.13), chance.Pick(Feel.Loose, Feel.Light, Feel.No)), (0.15, Feel.Firm));
            var loss = new LossPrior(chance.Uniform(0.02, 0.1), chance.Uniform(0.01, 0.04));
            var second = new WearCheck(20, new EngineCheck(Kept.Single, [readings], loss: loss));
            WearPoint point = WearFilter.Follow([start], [Kept.Check(0, ValveReadings.None), second], Kept.Wear).Valves[0][^1];
            (double mean, double variance) = SlowMixture(point.Predicted, readings, loss);
            // Where no blade entered the far end of what may have been lost counts, and where it is cut: to what answers promise.
            Assert.Equal(mean, point.Found.Clearance, 5e-4);
            Assert.Equal(Math.Sqrt(variance), point.Found.ClearanceSpread, 5e-4);
            Kept.AssertEqual(point.Predicted.Read(point.Found.Clearance, point.Found.ClearanceVariance), point.Found, 1e-12);
        }
    }

    [Fact]
    public void Follow_ValveWithoutReading_IsOnlyPredicted()
    {
        WearPoint point = WearFilter.Follow([Kept.Check(0, Made.Value(0.16)), Kept.Check(30, ValveReadings.None)], Kept.Wear).Valves[0][^1];
        Assert.Equal(point.Predicted, point.Found);
        Assert.Equal(0.02, WearFilter.Follow([Kept.Check(0, Made.Value(0.16))], Kept.Wear).Now[0].Clearance - point.Found.Clearance, 1e-12);
        Assert.False(point.WasRead);
    }

    [Fact]
    public void Follow_ShimChange_MovesTheClearanceWithItsDoubt()
    {
        WearPoint point = WearFilter.Follow([Kept.Check(0, Made.Value(0.11), Kept.Shim(2.6, 2.55))], Kept.Wear).Valves[0][0];
        Assert.Equal(0.05, point.Left.Clearance - point.Found.Clearance, 1e-12);
        Assert.Equal((0.004 * 0.004) + (2 * 0.002 * 0.002), point.Left.ClearanceVariance - point.Found.ClearanceVariance, 1e-12);
        Assert.Equal(0.05, point.Shift, 1e-12);
    }

    [Fact]
    public void Follow_ScrewTurned_SetsTheClearanceAndForgetsWhatItWas()
    {
        Engine screws = Made.Engine(new Valvetrain(Adjuster.Screw, 1.3, 0.75), Made.Valve());
        var check = new WearCheck(30, new EngineCheck(screws, [Made.Value(0.10)]), changes: [Adjustment.Turned(0, 0.05)]);
        var first = new WearCheck(0, new EngineCheck(screws, [Made.Value(0.14)]));
        WearPoint point = WearFilter.Follow([first, check], Kept.Wear).Valves[0][^1];
        Assert.Equal(point.Found.Clearance + (1.3 * 0.75 * 0.05), point.Left.Clearance, 1e-12);
        Assert.Equal(Seating.Usual.ScrewUncertainty, point.Left.ClearanceSpread, 1e-12);
        Assert.Equal(0, point.Left.Covariance);
        Assert.Equal(point.Found.RateVariance, point.Left.RateVariance);
        Assert.True(point.WasSet);
    }

    /// <summary>The same blade that felt the same says less as a stack of many leaves, also where the one was felt before the other.</summary>
    [Fact]
    public void Follow_OneBladeThenAStackOfIt_IsEachForItself()
    {
        WearState start = WearState.At(0.15, 4e-4, Kept.Wear.RateOf(ValveSide.Intake));
        WearState Felt(WearState from, params int[] leaves) => WearFilter.Follow(
            [from], [Kept.Check(0, ValveReadings.None), .. leaves.Select(n => Kept.Check(0, new([new BladeTrial(0.13, Feel.Firm, n)])))], Kept.Wear).Now[0];
        WearState one = Felt(start, 1);
        Kept.AssertEqual(Felt(one, 10), Felt(start, 1, 10), 1e-6);
        Assert.True(Felt(start, 10).ClearanceSpread > 1.05 * one.ClearanceSpread);
    }

    /// <summary>What a blade said on the warm engine says something else of the cold one; a blade that is a millionth thicker says the same.</summary>
    [Fact]
    public void Follow_OneBladeWarmThenCold_IsEachAtItsTemperature()
    {
        var engine = new Engine("Warm", Made.Bucket, [Made.Valve()], 0.001);
        WearState start = WearState.At(0.15, 4e-4, Kept.Wear.RateOf(ValveSide.Intake));
        WearCheck Felt(double blade, double temperature) => new(0, new EngineCheck(engine, [Made.Felt((blade, Feel.Firm))], temperature));
        WearState After(double warm) => WearFilter.Follow(
            [start], [new(0, new EngineCheck(engine, [ValveReadings.None])), Felt(warm, 45), Felt(0.15, 20)], Kept.Wear).Now[0];
        Kept.AssertEqual(After(0.15 + 1e-6), After(0.15), 1e-5);
    }

    /// <summary>The warm gap is wider by κ a degree.</summary>
    [Fact]
    public void Follow_ValueOfAWarmEngine_IsCorrectedToTheColdOne()
    {
        var engine = new Engine("Warm", Made.Bucket, [Made.Valve()], 0.001);
        WearState start = WearState.At(0.15, 4e-4, Kept.Wear.RateOf(ValveSide.Intake));
        WearState After(double value, double temperature) => WearFilter.Follow(
            [start], [new(0, new EngineCheck(engine, [ValveReadings.None])), new(0, new EngineCheck(engine, [Made.Value(value, 0.005)], temperature))], Kept.Wear).Now[0];
        Kept.AssertEqual(After(0.14, 20), After(0.165, 45), 1e-5);
    }

    [Fact]
    public void Follow_ValueFarFromTheForecast_IsBelieved()
    {
        WearState start = WearState.At(0.15, 1e-4, Kept.Wear.RateOf(ValveSide.Intake));
        WearState found = WearFilter.Follow([start], [Kept.Check(0, ValveReadings.None), Kept.Check(0, Made.Value(0.45, 0.01))], Kept.Wear).Now[0];
        Assert.Equal(0.45, found.Clearance, 1e-3);
    }

    [Fact]
    public void Follow_ClockThatFalls_IsRefused() => Assert.Throws<ArgumentOutOfRangeException>(() =>
        WearFilter.Follow([Kept.Check(10, Made.Value(0.15)), Kept.Check(9, Made.Value(0.15))], Kept.Wear));

    [Fact]
    public void Follow_AgesWithoutACheck_StillAnswers()
    {
        WearState state = WearFilter.Follow([Kept.Check(0, Made.Value(0.15)), Kept.Check(1e7, Made.Value(0.13))], Kept.Wear).Now[0];
        Assert.Equal(0.13, state.Clearance, 0.02);
        Assert.True(double.IsFinite(state.Rate) && state.RateVariance >= 0);
    }

    /// <summary>Plain sums over a fine grid.</summary>
    private static (double Mean, double Variance) SlowMixture(WearState predicted, ValveReadings readings, LossPrior loss)
    {
        ClearanceBand band = Kept.Single.Valves[0].Band;
        double total = 0, first = 0, second = 0;
        for (double c = band.Middle - 1; c < band.Middle + 0.6; c += 0.0002)
        {
            double p = 0.9 * StandardNormal.Density((c - predicted.Clearance) / predicted.ClearanceSpread) / predicted.ClearanceSpread;
            double own = 0, weights = 0;
            for (int k = 0; k < 240; k++)
            {
                double l = (k + 0.5) * 0.001;
                double weight = Math.Exp(-l / loss.Shared);
                weights += weight;
                own += weight * SlowLaw.PlaceDensity(c - band.Middle, band.Width / 4, loss.Own, l);
            }

            p += 0.1 * ((0.97 * own / weights) + (Math.Abs(c - band.Middle) <= 0.5 ? 0.03 : 0));
            foreach (BladeTrial trial in readings.Trials)
            {
                p *= FeelProfile.Default.Chance(trial.Feel, c, trial.Blade);
            }

            total += p;
            first += p * c;
            second += p * c * c;
        }

        return (first / total, (second / total) - Squares.Of(first / total));
    }
}
