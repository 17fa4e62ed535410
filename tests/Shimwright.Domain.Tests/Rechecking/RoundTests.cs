using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Xunit;

namespace Shimwright.Domain.Tests.Rechecking;

/// <summary>A round's end is the next round's beginning.</summary>
public class RoundTests
{
    private static readonly Adjustment Thinner = Adjustment.Fitted(0, Made.Measured(2.60), Made.Measured(2.53));

    [Fact]
    public void ToCheck_Estimated_IsWhatTheVerdictSays()
    {
        var recheck = new Recheck(
            Made.Check(Made.Value(0.08), Made.Value(0.16)), [Thinner], [Made.Felt((0.13, Feel.Light), (0.15, Feel.Firm)), ValveReadings.None], 20, Seating.Usual);
        EngineEstimate next = EngineEstimate.From(recheck.ToCheck());
        Assert.All(RecheckVerdict.On(recheck).Valves.Zip(next.Valves), v => Assert.Equal(v.First.Estimate, v.Second.Summarise()));
        Assert.Null(next.SharedCauseProbability);
    }

    /// <summary>Three readings of one valve say the same in one check and one in each of three rounds.</summary>
    [Fact]
    public void ToCheck_ThreeRoundsWithoutWork_ForgetNothing()
    {
        EngineCheck check = Made.Check(Made.Value(0.16, 0.02));
        check = new Recheck(check, [], [Made.Value(0.15, 0.02)], 20, Seating.Usual).ToCheck();
        check = new Recheck(check, [], [Made.Value(0.13, 0.02)], 20, Seating.Usual).ToCheck();
        ClearanceDistribution rounds = EngineEstimate.From(check).Valves[0];
        ClearanceDistribution once = EngineEstimate.From(Made.Check(
            new ValveReadings(values: [new DirectValue(0.16, 0.02), new DirectValue(0.15, 0.02), new DirectValue(0.13, 0.02)]))).Valves[0];
        Assert.Equal(once.Mean, rounds.Mean, 1e-6);
        Assert.Equal(once.StandardDeviation, rounds.StandardDeviation, 1e-6);
        Assert.Equal(once.InBand, rounds.InBand, 1e-4);
    }

    /// <summary>
    /// The re-check found 0.21 where 0.15 was meant, and nothing is read in the second round. With a shim 0.06 thicker the gap is then
    /// expected at 0.15, known as well as the re-check and the change know it.
    /// </summary>
    [Fact]
    public void ToCheck_ChangedTwice_IsExpectedWhereTheSecondChangePutsIt()
    {
        EngineCheck second = new Recheck(Made.Check(Made.Value(0.08)), [Thinner], [Made.Value(0.21, 0.005)], 20, Seating.Usual).ToCheck();
        RecheckedValve after = RecheckVerdict.On(new Recheck(
            second, [Adjustment.Fitted(0, Made.Measured(2.53), Made.Measured(2.59))], [ValveReadings.None], 20, Seating.Usual)).Valves[0];
        ClearanceDistribution found = EngineEstimate.From(second).Valves[0];
        Assert.Equal(found.Mean - 0.06, after.Predicted.Mean, 1e-6);
        Assert.Equal(
            Squares.CombinedStandardUncertainty(found.StandardDeviation, 0.004, 0.002, 0.002), after.Predicted.StandardDeviation, 1e-5);
        Assert.Equal(PassResult.NotFelt, after.Result);
    }

    /// <summary>The reading that counts is the last one since the valve was changed, and a valve that was ever changed has to be felt.</summary>
    [Fact]
    public void Judge_LaterRound_LooksAtTheLastReadingAsTheValveIsNow()
    {
        EngineCheck first = Made.Check(Made.Value(0.08), Made.Felt((0.08, Feel.No)), Made.Value(0.15));
        EngineCheck second = new Recheck(
            first, [Thinner], [Made.Value(0.15, 0.01), ValveReadings.None, ValveReadings.None], 20, Seating.Usual).ToCheck();
        RecheckVerdict verdict = RecheckVerdict.On(new Recheck(
            second, [Adjustment.Fitted(2, Made.Measured(2.60), Made.Measured(2.59))], [ValveReadings.None, ValveReadings.None, ValveReadings.None], 20, Seating.Usual));
        Assert.Equal(InBandOf(0.15, 0.01), verdict.Valves[0].Alone!.Value, 1e-3);
        Assert.True(verdict.Valves[0].Passes);
        Assert.InRange(verdict.Valves[1].Alone!.Value, 0, 0.2);
        Assert.False(verdict.Valves[1].Passes);
        Assert.Equal((null, PassResult.NotFelt), (verdict.Valves[2].Alone, verdict.Valves[2].Result));
        Assert.Same(second, second.ReadAt(0));
        Assert.Same(first, second.ReadAt(1));
    }

    /// <summary>A plan from the re-check: what was fitted is what comes out, and what the re-check left is what the chances rest on.</summary>
    [Fact]
    public void Plan_FromARecheck_StartsFromWhatItLeft()
    {
        EngineCheck second = new Recheck(
            Made.Check(Made.Value(0.08), Made.Value(0.15)), [Thinner], [Made.Value(0.21, 0.005), ValveReadings.None], 20, Seating.Usual).ToCheck();
        Domain.Shims.Stock stock = new([new(Made.Measured(2.59), 1)], []);
        ShimPlan plan = Planner.Plan(new PlanRequest(second, [Made.Measured(2.53), Made.Measured(2.60)], stock)).Chosen;
        Assert.Equal((ValveAction.Fit, 2.53, 2.59), (plan.Valves[0].Action, plan.Valves[0].From!.Millimetres, plan.Valves[0].To!.Millimetres));
        Assert.Equal(EngineEstimate.From(second).Valves[0].Mean, plan.Valves[0].Estimate.Mean, 1e-4);
        Assert.Equal(ValveAction.Keep, plan.Valves[1].Action);
    }

    private static double InBandOf(double value, double u) => StandardNormal.Between((0.12 - value) / u, (0.18 - value) / u);

    [Fact]
    public void InRound_PriorOfAnotherEngine_IsRefused()
    {
        EngineCheck two = new Recheck(Made.Check(Made.Value(0.15), Made.Value(0.15)), [], [ValveReadings.None, ValveReadings.None], 20, Seating.Usual).ToCheck();
        Assert.Throws<ArgumentOutOfRangeException>("round", () => Made.Check(Made.Value(0.15)).InRound(two.Round!));
        Assert.Throws<ArgumentOutOfRangeException>("valve", () => two.ReadAt(2));
        Assert.Throws<ArgumentOutOfRangeException>("valve", () => two.ReadAt(-1));
    }
}
