using MathNet.Numerics.LinearAlgebra;
using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Wear;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Wear;

[Proof(Formulas.Filter, Evidence.Computed, "The textbook smoother.")]
public class WearSmootherTests
{
    [Fact]
    public void Smooth_NormalReadingsAndNoStrays_IsTheTextbookSmoother()
    {
        var chance = new SeededChance(101);
        WearState start = WearState.At(0.17, 1e-4, Kept.Wear.RateOf(ValveSide.Intake));
        var plain = new PlainKalman(start, Kept.Wear.Diffusion);
        List<WearCheck> checks = [Kept.Check(0, ValveReadings.None)];
        double clock = 0;
        for (int k = 1; k < 12; k++)
        {
            double time = chance.Uniform(1, Kept.Interval);
            double? value = k % 4 == 0 ? null : 0.17 - (0.0005 * clock) + chance.Normal(0, 0.01);
            plain.Read(time, value, 0.01);
            checks.Add(Kept.Check(clock += time, value is { } v ? Made.Value(v) : ValveReadings.None));
        }

        IReadOnlyList<WearState> smoothed = WearSmoother.Smooth(WearFilter.Follow([start], checks, Kept.Wear, strayWeight: 0))[0];
        Assert.All(plain.Smoothed().Zip(smoothed), pair => Kept.AssertEqual(pair.First, pair.Second, 1e-9));
    }

    [Fact]
    public void Smooth_ShimChange_IsTheSmootherOfTheClearanceWithTheShimTakenOff()
    {
        // A shift that is known exactly only relabels the clearances after it.
        Adjustment change = Kept.Shim(2.6, 2.55);
        WearCheck[] changed = [Kept.Check(0, Made.Value(0.13), change), Kept.Check(30, Made.Value(0.16)), Kept.Check(60, Made.Value(0.14))];
        IReadOnlyList<WearState> smoothed = WearSmoother.Smooth(WearFilter.Follow(changed, Kept.Wear))[0];
        IReadOnlyList<WearPoint> found = WearFilter.Follow(changed, Kept.Wear).Valves[0];
        Assert.Equal(found[^1].Found, smoothed[^1]);
        Assert.All(smoothed.Zip(found), pair => Assert.True(pair.First.ClearanceVariance <= pair.Second.Found.ClearanceVariance + 1e-12));
        Assert.All(smoothed, s => Assert.Equal(found[^1].Found.Rate, s.Rate, 1e-12));
    }

    /// <summary>After every third check the shim is changed, or the screw set; what comes later says of what was found what the textbook says.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Smooth_ChangesBetween_IsTheTextbookSmoother(bool isScrew)
    {
        Engine engine = isScrew ? Made.Engine(new Valvetrain(Adjuster.Screw, 1.5, 0.75), Made.Valve()) : Kept.Single;
        Adjustment adjustment = isScrew ? Adjustment.Turned(0, 0.03) : Kept.Shim(2.6, 2.56);
        var change = ClearanceChange.Of(adjustment, engine.Valvetrain, Seating.Usual);
        var chance = new SeededChance(102);
        WearState start = WearState.At(0.17, 1e-4, Kept.Wear.RateOf(ValveSide.Intake));
        var plain = new PlainKalman(start, Kept.Wear.Diffusion);
        WearCheck Check(double clock, ValveReadings readings, bool changes) => new(clock, new EngineCheck(engine, [readings]), changes: changes ? [adjustment] : []);
        List<WearCheck> checks = [Check(0, ValveReadings.None, false)];
        double clock = 0;
        for (int k = 1; k < 12; k++)
        {
            double time = chance.Uniform(1, Kept.Interval);
            double value = 0.17 - (0.0005 * clock) + (k / 3 * change.Shift) + chance.Normal(0, 0.01);
            plain.Read(time, value, 0.01);
            checks.Add(Check(clock += time, Made.Value(value), k % 3 == 2));
            if (k % 3 == 2 && isScrew)
            {
                plain.Set(change.Shift, change.Uncertainty);
            }
            else if (k % 3 == 2)
            {
                plain.Move(change.Shift, change.Uncertainty);
            }
        }

        IReadOnlyList<WearState> smoothed = WearSmoother.Smooth(WearFilter.Follow([start], checks, Kept.Wear, strayWeight: 0))[0];
        Assert.All(plain.Smoothed().Zip(smoothed), pair => Kept.AssertEqual(pair.First, pair.Second, 1e-9));
    }

    [Fact]
    public void Smooth_ScrewSetBetween_SaysNothingOfTheGapBeforeButForTheRate()
    {
        Engine screws = Made.Engine(new Valvetrain(Adjuster.Screw, 1, 0.75), Made.Valve());
        WearCheck Check(double clock, double value, params Adjustment[] changes) => new(clock, new EngineCheck(screws, [Made.Value(value)]), changes: changes);
        WearState Before(double later)
        {
            EngineWear wear = WearFilter.Follow([Check(0, 0.14, Adjustment.Turned(0, 0.02)), Check(0, later)], Kept.Wear, strayWeight: 0);
            return WearSmoother.Smooth(wear)[0][0];
        }

        Assert.Equal(Before(0.15).Clearance, Before(0.17).Clearance, 1e-12);
    }

    /// <summary>
    /// All that is unknown (the gap at first, the rate, the unrest of both times, the error of the setting) estimated at once from all
    /// readings, as one normal law: the smoother has to come to the same, though the setting cuts the gap before off from the gap after.
    /// </summary>
    [Theory]
    [InlineData(0.16, 0.12)]
    [InlineData(0.12, 0.17)]
    public void Smooth_ScrewSetBetween_IsTheFitOfEverythingAtOnce(double atTheSetting, double later)
    {
        const double u = 0.01, first = 20, second = 25, turns = 0.03;
        Engine screws = Made.Engine(new Valvetrain(Adjuster.Screw, 1, 0.75), Made.Valve());
        WearCheck Check(double clock, ValveReadings readings, params Adjustment[] changes) => new(clock, new EngineCheck(screws, [readings]), changes: changes);
        WearState start = WearState.At(0.17, 1e-4, Kept.Wear.RateOf(ValveSide.Intake));
        EngineWear wear = WearFilter.Follow(
            [start],
            [Check(0, ValveReadings.None), Check(first, Made.Value(atTheSetting, u), Adjustment.Turned(0, turns)), Check(first + second, Made.Value(later, u))],
            Kept.Wear, strayWeight: 0);

        double set = wear.Valves[0][1].Found.Clearance + (0.75 * turns);
        Matrix<double> reads = Matrix<double>.Build.DenseOfArray(new[,] { { 1, -first, 1, 0, 0 }, { 0, -second, 0, 1, 1 } });
        Vector<double> expected = Vector<double>.Build.DenseOfArray([start.Clearance, start.Rate, 0, 0, 0]);
        Matrix<double> information = Matrix<double>.Build.DenseOfDiagonalArray(
            [1 / start.ClearanceVariance, 1 / start.RateVariance, 1 / (Kept.Wear.Diffusion * first), 1 / Math.Pow(Seating.Usual.ScrewUncertainty, 2), 1 / (Kept.Wear.Diffusion * second)]);
        Matrix<double> covariance = (information + (reads.Transpose() * reads / (u * u))).Inverse();
        Vector<double> missed = Vector<double>.Build.DenseOfArray([atTheSetting, later - set]) - (reads * expected);
        Vector<double> best = expected + (covariance * reads.Transpose() * missed / (u * u));

        WearState State(params double[] gap)
        {
            Vector<double> c = Vector<double>.Build.DenseOfArray(gap), r = Vector<double>.Build.DenseOfArray([0, 1, 0, 0, 0]);
            return new(c * best, r * best, c * covariance * c, c * covariance * r, r * covariance * r);
        }

        IReadOnlyList<WearState> smoothed = WearSmoother.Smooth(wear)[0];
        Kept.AssertEqual(State(1, 0, 0, 0, 0), smoothed[0], 1e-9);
        Kept.AssertEqual(State(1, -first, 1, 0, 0), smoothed[1], 1e-9);
    }

    [Fact]
    public void Smooth_RateKnownExactly_StillSmoothsTheClearance()
    {
        var wear = new UsualWear(30, 0.02, 0);
        WearCheck[] checks = [Kept.Check(0, Made.Value(0.16)), Kept.Check(30, Made.Value(0.10)), Kept.Check(60, Made.Value(0.08))];
        IReadOnlyList<WearState> smoothed = WearSmoother.Smooth(WearFilter.Follow(checks, wear, strayWeight: 0))[0];
        Assert.True(smoothed[0].Clearance < WearFilter.Follow(checks, wear).Valves[0][0].Found.Clearance);
        Assert.All(smoothed, s => Assert.Equal(0.02 / 30, s.Rate, 1e-15));
    }
}
