using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Wear;
using Xunit;

namespace Shimwright.Domain.Tests.Wear;

public class EngineWearTests
{
    /// <summary>The formulas of the state space written out: c falls by r·Δ, its variance takes the doubt of the rate and the unrest along.</summary>
    [Fact]
    public void PriorAt_LaterClock_IsTheValveWornToIt()
    {
        EngineWear wear = TwoChecks(new Valvetrain(Adjuster.ShimUnderBucket), 0.17, 0.14);
        WearState now = wear.Now[0];
        const double later = 20;
        ExpectedClearance prior = wear.PriorAt(wear.Clock + later).Valves[0];
        double variance = now.ClearanceVariance - (2 * later * now.Covariance) + (later * later * now.RateVariance) + (later * 0.005 * 0.005 / Kept.Interval);
        Assert.Equal(now.Clearance - (later * now.Rate), prior.Mean, 1e-12);
        Assert.Equal(Math.Sqrt(variance), prior.StandardDeviation, 1e-12);
        Assert.InRange(now.Clearance - prior.Mean, 0.01, 0.1);
        Assert.Equal(now.Clearance, wear.PriorAt(wear.Clock).Valves[0].Mean, 1e-15);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(1.5)]
    [InlineData(0.8)]
    public void RecessionOf_ThinnerShim_CountsItAtTheGap(double ratio)
    {
        EngineWear wear = TwoChecks(new Valvetrain(Adjuster.FingerFollower, ratio), 0.17, 0.14);
        double fallen = wear.Valves[0][0].Found.Clearance - wear.Valves[0][1].Found.Clearance;
        Assert.Equal((ratio * 0.10) + fallen, wear.RecessionOf(0)!.Value, 1e-12);
    }

    /// <summary>What was put in after the last reading has not worn yet.</summary>
    [Fact]
    public void RecessionOf_ShimsNotNoted_CountsTheChangesUpToTheLastReading()
    {
        Engine engine = Made.Engine(new Valvetrain(Adjuster.FingerFollower, 1.5), Made.Valve());
        WearCheck At(double clock, double value, params Adjustment[] changes) => new(clock, new EngineCheck(engine, [Made.Value(value)]), changes: changes);
        EngineWear wear = WearFilter.Follow([At(0, 0.14, Kept.Shim(2.60, 2.56)), At(30, 0.17), At(60, 0.13, Kept.Shim(2.56, 2.50))], Kept.Wear);
        double fallen = wear.Valves[0][0].Found.Clearance - wear.Valves[0][2].Found.Clearance;
        Assert.Equal((1.5 * 0.04) + fallen, wear.RecessionOf(0)!.Value, 1e-12);
    }

    /// <summary>Two checks an interval apart; the shim found at the second is a tenth thinner.</summary>
    private static EngineWear TwoChecks(Valvetrain train, double first, double second)
    {
        Engine engine = Made.Engine(train, Made.Valve());
        WearCheck At(double clock, double value, double fitted) => new(clock, new EngineCheck(engine, [Made.Value(value)]), [Made.Measured(fitted)]);
        return WearFilter.Follow([At(10, first, 2.6), At(10 + Kept.Interval, second, 2.5)], Kept.Wear);
    }
}
