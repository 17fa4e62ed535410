using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Adjusting;

public class ClearanceChangeTests
{
    private static readonly Valvetrain Finger = new(Adjuster.FingerFollower, 1.5);

    [Fact]
    public void Fitting_TwoInstruments_JoinsAllFourPartsAtTheGapAndTheSeating()
    {
        var change = ClearanceChange.Fitting(
            Leverage.Of(Finger), new Thickness(2.60, Instrument.Calliper), Made.Measured(2.52), new Seating(0.005));
        double parts = (0.006 * 0.006) + (0.010 * 0.010) + (2 * 0.002 * 0.002);
        Assert.Equal(1.5 * 0.08, change.Shift, 1e-12);
        Assert.Equal(Math.Sqrt(0.000025 + (1.5 * 1.5 * parts)), change.Uncertainty, 1e-12);
        Assert.False(change.IsSet);
    }

    [Fact]
    public void Of_Adjustment_IsWhatAShimOrAScrewDoes()
    {
        Assert.Equal(
            ClearanceChange.Fitting(Leverage.Of(Finger), Made.Marked(2.6), Made.Marked(2.5), Seating.Usual),
            ClearanceChange.Of(Adjustment.Fitted(3, Made.Marked(2.6), Made.Marked(2.5)), Finger, Seating.Usual));
        var screw = new Valvetrain(Adjuster.Screw, 1.2, 0.75);
        var turned = ClearanceChange.Of(Adjustment.Turned(0, -0.25), screw, Seating.Usual);
        Assert.Equal(ClearanceChange.Turning(screw, -0.25, Seating.Usual), turned);
        Assert.Equal(-0.225, turned.Shift, 1e-15);
        Assert.Equal((Seating.Usual.ScrewUncertainty, true), (turned.Uncertainty, turned.IsSet));
    }

    [Fact]
    public void Default_ChangesNothing() =>
        Assert.Equal((0.0, 0.0, false), (default(ClearanceChange).Shift, default(ClearanceChange).Uncertainty, default(ClearanceChange).IsSet));

    [Fact]
    public void By_NumbersThatAreNone_AreRefusedByName()
    {
        Refuses.NotANumber("shift", x => ClearanceChange.By(x, 0.01));
        Refuses.NotANumber("uncertainty", x => ClearanceChange.By(0, x));
        Assert.Throws<ArgumentOutOfRangeException>("uncertainty", () => ClearanceChange.By(0, 0));
        Refuses.NotANumber("turns", x => ClearanceChange.Turning(new(Adjuster.Screw, 1, 1), x, Seating.Usual));
    }
}
