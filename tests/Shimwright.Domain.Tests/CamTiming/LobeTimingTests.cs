using Shimwright.Domain.CamTiming;
using Shimwright.Domain.CrankStops;
using Xunit;

namespace Shimwright.Domain.Tests.CamTiming;

public class LobeTimingTests
{
    private static readonly CamEvents Intake = new(-15, 35);
    private static readonly CamEvents Exhaust = new(40, 10);

    [Fact]
    public void Lobes_OneSideOnly_LeaveWhatNeedsBothOpen()
    {
        var intake = new LobeTiming(Intake, null);
        Assert.Equal((200, 115), (intake.IntakeDuration, intake.IntakeCentre));
        Assert.Equal<double?>([null, null, null, null], [intake.ExhaustDuration, intake.ExhaustCentre, intake.Overlap, intake.Separation]);
        var exhaust = new LobeTiming(null, Exhaust);
        Assert.Equal((230, 105), (exhaust.ExhaustDuration, exhaust.ExhaustCentre));
        Assert.Equal<double?>([null, null, null, null], [exhaust.IntakeDuration, exhaust.IntakeCentre, exhaust.Overlap, exhaust.Separation]);
    }

    // A lobe's centre lies as far from its opening as from its closing: opening at -15 before TDC, closing at 180 + 35 after.
    [Fact]
    public void IntakeCentre_LiesInTheMiddleOfTheOpening()
    {
        var lobes = new LobeTiming(Intake, Exhaust);
        Assert.Equal(180 + Intake.Closes - lobes.IntakeCentre, lobes.IntakeCentre + Intake.Opens);
        Assert.Equal(180 + Exhaust.Opens - lobes.ExhaustCentre, lobes.ExhaustCentre + Exhaust.Closes);
    }

    // Centres 115 after and 105 before top dead centre lie 220 crank degrees apart, which are 110 of the camshaft; from 10 after to 15 after none is open.
    [Fact]
    public void Separation_IsInCamshaftDegrees_OverlapInCrankDegrees() =>
        Assert.Equal((110, -5), (new LobeTiming(Intake, Exhaust).Separation, new LobeTiming(Intake, Exhaust).Overlap));

    [Fact]
    public void Lobes_BothCamshaftsAdvanced_KeepDurationsAndSeparation()
    {
        var before = new LobeTiming(Intake, Exhaust);
        var after = new LobeTiming(new CamEvents(Intake.Opens + 6, Intake.Closes - 6), new CamEvents(Exhaust.Opens + 6, Exhaust.Closes - 6));
        Assert.Equal((before.IntakeDuration, before.ExhaustDuration, before.Separation, before.Overlap), (after.IntakeDuration, after.ExhaustDuration, after.Separation, after.Overlap));
        Assert.Equal(before.IntakeCentre - 6, after.IntakeCentre);
        Assert.Equal(before.ExhaustCentre + 6, after.ExhaustCentre);
    }

    [Fact]
    public void AfterClearanceChange_MoreClearance_OpensLaterAndClosesEarlier()
    {
        CamEvents after = LobeTiming.AfterClearanceChange(Exhaust, 0.05, 0.01)!;
        Assert.Equal((35, 5), (after.Opens, after.Closes));
        CamEvents back = LobeTiming.AfterClearanceChange(after, -0.05, 0.01)!;
        Assert.Equal(Exhaust.Opens, back.Opens, 1e-12);
        Assert.Equal(Exhaust.Closes, back.Closes, 1e-12);
    }

    [Fact]
    public void AfterClearanceChange_MoreThanTheLift_HasNoEvents()
    {
        Assert.Null(LobeTiming.AfterClearanceChange(Exhaust, 1.2, 0.01));
        Assert.Null(LobeTiming.AfterClearanceChange(Exhaust, -2, 0.001));
    }

    [Fact]
    public void AfterClearanceChange_WhatIsNoSlope_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>("rampSpeed", () => LobeTiming.AfterClearanceChange(Exhaust, 0.05, 0));
        Assert.Throws<ArgumentOutOfRangeException>("clearanceChange", () => LobeTiming.AfterClearanceChange(Exhaust, double.NaN, 0.01));
    }
}
