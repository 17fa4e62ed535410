using Shimwright.Domain.CrankStops;
using Xunit;

namespace Shimwright.Domain.Tests.CrankStops;

public class CamRampTests
{
    // The widening by the lift at which events are printed: common practice, no source. Half of it at no lift, all of it at 1 mm.
    [Theory]
    [InlineData(20, 1, 20)]
    [InlineData(20, 0, 10)]
    [InlineData(20, 0.25, 15)]
    [InlineData(20, 4, 30)]
    [InlineData(8, 0, 4)]
    [InlineData(0, 4, 0)]
    public void OfEvents_ByTheLiftAtWhichTheyAreGiven_Grows(double ramp, double lift, double widening) =>
        Assert.Equal(widening, new CamRamp(ramp, lift).OfEvents, 1e-12);

    [Fact]
    public void CamRamp_BeyondItsLimits_IsRefused()
    {
        Refuses.OutOfRange("degrees", 181, "0 to 180", () => new CamRamp(181));
        Refuses.OutOfRange("eventsAt", 5.01, "0 to 5", () => new CamRamp(20, 5.01));
        Refuses.OutOfRange("eventsAt", -0.01, "0 to 5", () => new CamRamp(20, -0.01));
        Refuses.NotANumber("eventsAt", x => new CamRamp(20, x));
    }

    // An exhaust valve from 130 to 370 by its events: true ones leave 10 degrees more of heel at either end than those at 1 mm.
    // The further interval is no lobe and is widened by the ramp whatever the lift.
    [Fact]
    public void HeelOf_TrueEvents_IsLongerThanThatOfEventsAtOneMillimetre()
    {
        var events = new CamEvents(50, 10);
        TimedValve valve = new("E1", 1, Domain.Engines.ValveSide.Exhaust, events, [new OffHeel(600, 40)]);
        var usual = new CrankLayout([1], null, [valve]);
        var real = new CrankLayout([1], null, [valve], eventsAt: 0);
        Assert.Equal([new HeelArc(660, 170), new HeelArc(390, 190)], usual.HeelOf(valve).OrderByDescending(a => a.From));
        Assert.Equal([new HeelArc(660, 180), new HeelArc(380, 200)], real.HeelOf(valve).OrderByDescending(a => a.From));
    }
}
