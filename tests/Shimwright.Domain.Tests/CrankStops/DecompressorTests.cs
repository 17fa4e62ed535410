using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.CrankStops;

/// <summary>A single with an automatic decompressor on its exhaust valve. Common practice, no source.</summary>
public class DecompressorTests
{
    // The exhaust valve is off its heel from 110 to 390 by its lobe, and from 520 to 20 by the decompressor, ramps included.
    // At TDC on compression it is held open: it is read 30 degrees past it, where the intake is on its heel too.
    [Theory]
    [InlineData(DecompressorLift.Forwards)]
    [InlineData(DecompressorLift.Both)]
    public void For_LiftsOnTheWay_ReadsTheValvePastTheLift(DecompressorLift lifts)
    {
        CrankLayout layout = Single(lifts);
        Assert.True(StopPlan.SlackAt(layout.HeelOf(layout.Valves[1]), 0) < 0);
        CrankStop stop = Assert.Single(StopPlan.For(layout, anywhere: false)!.Stops);
        Assert.Equal((30, 30), (stop.Angle, stop.Turn));
        Assert.Equal([new StoppedValve(0, 140), new StoppedValve(1, 10)], stop.Valves);
        Assert.Empty(StopPlan.ServedByNoMark(layout));
    }

    [Fact]
    public void For_LiftsBackwardsOnly_ReadsTheValveAtTdc()
    {
        CrankStop stop = Assert.Single(StopPlan.For(Single(DecompressorLift.Backwards), anywhere: false)!.Stops);
        Assert.Equal(0, stop.Angle);
        Assert.Empty(Single(DecompressorLift.Backwards).LetGoOf(Single(DecompressorLift.Backwards).Valves[1]));
    }

    // A lift that the card states takes the place of the usual one: from 660 to 700 the valve is off its heel, at TDC it is not.
    [Fact]
    public void For_LiftStatedByTheCard_KeepsClearOfThatAlone()
    {
        CrankLayout layout = Single(DecompressorLift.Forwards, new OffHeel(660, 40));
        Assert.Equal(0, StopPlan.SlackAt(layout.HeelOf(layout.Valves[1]), 0), 1e-9);
        Assert.Equal([10.0], layout.LetGoOf(layout.Valves[1]));
        Assert.Equal([10.0], StopPlan.For(layout, anywhere: false)!.Stops.Select(s => s.Angle));
    }

    // Where the lobe begins before the decompressor has let go there is no heel past it, and no place is offered there.
    [Fact]
    public void LetGoOf_NoHeelPastTheLift_OffersNoPlace()
    {
        CrankLayout layout = Single(DecompressorLift.Forwards, new OffHeel(-180, 270));
        Assert.Empty(layout.LetGoOf(layout.Valves[1]));
    }

    private static CrankLayout Single(DecompressorLift lifts, params IReadOnlyList<OffHeel> stated) => new(
        [1],
        null,
        [
            new TimedValve("I1", 1, ValveSide.Intake, new CamEvents(10, 50), []),
            new TimedValve("E1", 1, ValveSide.Exhaust, new CamEvents(50, 10), stated, new Decompressor(lifts)),
        ]);
}
