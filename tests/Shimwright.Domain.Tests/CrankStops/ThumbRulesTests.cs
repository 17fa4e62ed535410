using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.CrankStops;

/// <summary>Where rules of thumb hold, and where they must not be offered.</summary>
public class ThumbRulesTests
{
    private static readonly OffHeel Decompressor = new(100, 20);

    [Fact]
    public void FullyOpen_IsTheMiddleOfTheOpening()
    {
        CrankLayout layout = new([1, 2], [0, 270], MadeLayout.TwoEach([1, 2]));
        Assert.Equal([470, 250, 20, 520], layout.Valves.Select(v => ThumbRules.FullyOpen(layout, v)));
    }

    [Fact]
    public void Companions_UnevenFiring_HoldWherePairsAreAFullTurnApart() =>
        Assert.Equal([(1, 3), (2, 4)], ThumbRules.Companions(new CrankLayout([1, 2, 3, 4], [0, 90, 360, 450], MadeLayout.TwoEach([1, 2, 3, 4]))));

    [Fact]
    public void Companions_CylindersThatFireTogether_AllHaveTheirMates() =>
        Assert.Equal(
            [(1, 3), (1, 4), (2, 3), (2, 4)],
            ThumbRules.Companions(new CrankLayout([1, 2, 3, 4], [0, 0, 360, 360], MadeLayout.TwoEach([1, 2, 3, 4]))));

    [Fact]
    public void Companions_OddNumberOfCylinders_HaveNone() => Assert.Empty(ThumbRules.Companions(MadeLayout.Of([1, 3, 2])));

    [Fact]
    public void Companions_OneCylinderWithoutMate_AreNotOffered() =>
        Assert.Empty(ThumbRules.Companions(new CrankLayout([1, 2, 3], [0, 90, 360], MadeLayout.TwoEach([1, 2, 3]))));

    // Intake 2 fully open is 830 or 110 on cylinder 1's clock, and there the decompressor of cylinder 1 lifts its intake.
    [Fact]
    public void Companions_MateOffItsHeelThen_AreNotOffered()
    {
        TimedValve[] valves = [MadeLayout.Valve(1, ValveSide.Intake, null, Decompressor), MadeLayout.Valve(2, ValveSide.Intake)];
        Assert.Empty(ThumbRules.Companions(MadeLayout.Of([1, 2], valves)));
        Assert.NotEmpty(ThumbRules.Companions(MadeLayout.Of([1, 2], [valves[0] with { Also = [] }, valves[1]])));
    }

    // Of two pairs, 1 with 4 and 2 with 3, only the first cannot: a rule that fails at one cylinder is no rule for the engine.
    [Fact]
    public void Companions_OnePairOfTwoOffItsHeel_AreNotOffered()
    {
        TimedValve[] valves = [.. MadeLayout.TwoEach([1, 2, 3, 4])];
        Assert.Equal([(1, 4), (2, 3)], ThumbRules.Companions(MadeLayout.Of([1, 3, 4, 2], valves)));
        valves[0] = valves[0] with { Also = [Decompressor] };
        Assert.Empty(ThumbRules.Companions(MadeLayout.Of([1, 3, 4, 2], valves)));
    }

    [Fact]
    public void PairSum_MateOffItsHeelThen_IsNotOffered()
    {
        IReadOnlyList<TimedValve> head = MadeLayout.Head("EIIEEIIE");
        Assert.Equal(9, ThumbRules.PairSum(MadeLayout.Of([1, 3, 4, 2], head)));
        TimedValve[] spoilt = [.. head];
        spoilt[1] = spoilt[1] with { Also = [Decompressor] };
        Assert.Null(ThumbRules.PairSum(MadeLayout.Of([1, 3, 4, 2], spoilt)));
    }

    [Theory]
    [InlineData("EIIEEIIE", 1, 2, 3, 4)] // mirror cylinders that are not running mates
    [InlineData("EIEIEIEI", 1, 3, 4, 2)]
    [InlineData("IEIEIEIE", 1, 3, 4, 2)]
    [InlineData("EIIEEII", 1, 3, 4, 2)] // a valve left out
    public void PairSum_HeadThatIsNoMirrorOfMates_HasNone(string head, params int[] order) =>
        Assert.Null(ThumbRules.PairSum(MadeLayout.Of(order, MadeLayout.Head(head))));

    // Made up so that an exhaust is fully open a full turn after an intake: no pair of like valves, no rule.
    [Fact]
    public void PairSum_PairsOfDifferentKinds_AreNotOffered()
    {
        CrankLayout layout = new([1, 2], [0, 580], [MadeLayout.Valve(1, ValveSide.Intake), MadeLayout.Valve(2, ValveSide.Exhaust)]);
        Assert.Equal(360, CrankAngle.Turn(ThumbRules.FullyOpen(layout, layout.Valves[0]), ThumbRules.FullyOpen(layout, layout.Valves[1])));
        Assert.Null(ThumbRules.PairSum(layout));
    }

    // When the intake is fully open, at 470, the exhaust is 100 degrees past its closing.
    [Theory]
    [InlineData(100, true)]
    [InlineData(101, false)]
    public void OwnCylinderRuleHolds_DependsOnTheRamp(double ramp, bool holds) =>
        Assert.Equal(holds, ThumbRules.OwnCylinderRuleHolds(MadeLayout.Of([1], ramp: ramp)));

    [Fact]
    public void OwnCylinderRuleHolds_OneSideOnly_SaysNothing() =>
        Assert.False(ThumbRules.OwnCylinderRuleHolds(MadeLayout.Of([1], [MadeLayout.Valve(1, ValveSide.Intake)])));

    // On its heel when the intake is fully open and when it has closed, but not on the way.
    [Fact]
    public void OwnCylinderRuleHolds_ExhaustLiftedOnTheWay_IsNotOffered()
    {
        TimedValve exhaust = MadeLayout.Valve(1, ValveSide.Exhaust, null, new OffHeel(520, 20));
        Assert.False(ThumbRules.OwnCylinderRuleHolds(MadeLayout.Of([1], [MadeLayout.Valve(1, ValveSide.Intake), exhaust], ramp: 0)));
        Assert.True(ThumbRules.OwnCylinderRuleHolds(MadeLayout.Of([1], [MadeLayout.Valve(1, ValveSide.Intake), exhaust with { Also = [] }], ramp: 0)));
    }
}
