using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Stops;

/// <summary>What a layout's members do, and what stands where they are left out.</summary>
public class LayoutTests
{
    [Fact]
    public void Stops_JobWithoutReadingsAndShims_IsAnswered() =>
        Assert.Equal(
            ["0 after 0: I1 110, E1 110, I2 150, E3 150", "360 after 360: E2 150, I3 150, I4 110, E4 110"],
            StopsJob.Stops(StopsJob.Four()));

    [Theory]
    [InlineData("$.engine.layout.rampDeg", "20")]
    [InlineData("$.engine.layout.stopsAt", "\"marks\"")]
    [InlineData("$.engine.layout.marks", "[]")]
    [InlineData("$.engine.layout.firingAngles", "[0, 180, 360, 540]")]
    [InlineData("$.engine.layout.firingAngles", "[-720, -540, -360, -180]")]
    [InlineData("$.history", "[{\"clock\": 0, \"readings\": [], \"fitted\": [], \"changed\": []}]")]
    public void Stops_DefaultWrittenOut_ChangesNothing(string path, string value) =>
        Assert.Equal(StopsJob.Stops(StopsJob.Four()), StopsJob.Stops(StopsJob.Four().Set(path, value)));

    [Fact]
    public void Stops_Ramp_TakesFromTheSlack() =>
        Assert.Equal("0 after 0: I1 125.5, E1 125.5, I2 165.5, E3 165.5", StopsJob.Stops(StopsJob.Four().Set("$.engine.layout.rampDeg", "4.5"))[0]);

    [Fact]
    public void Stops_UnevenAngles_AreTaken() =>
        Assert.Equal(
            ["0 after 0: I1 110, E1 110", "450 after 450: I2 110, E2 110"],
            StopsJob.Stops(Twin().Set("$.engine.layout.firingAngles", "[0, 450]")));

    [Fact]
    public void Stops_Anywhere_MayStopOffTheDeadCentres()
    {
        JobDraft twin = Twin().Set("$.engine.layout.firingAngles", "[0, 180]").Set("$.engine.layout.stopsAt", "\"anywhere\"");
        Assert.Equal(["90 after 90: I1 200, E1 20, I2 20, E2 200"], StopsJob.Stops(twin));
    }

    [Fact]
    public void Stops_FurtherMark_IsUsedWhereItHelps()
    {
        JobDraft twin = Twin().Set("$.engine.layout.firingAngles", "[0, 180]");
        Assert.Equal(2, StopsJob.Stops(twin).Length);
        Assert.Equal(["95 after 95: I1 205, E1 15, I2 25, E2 195"], StopsJob.Stops(twin.Set("$.engine.layout.marks", "[95, 400]")));
    }

    [Fact]
    public void Stops_EventsOfAValve_StandInForThoseOfItsSide()
    {
        // With 100 degrees left at 0 and 150 at 180, half a turn on is now better.
        JobDraft draft = StopsJob.Four().Set("$.engine.valves[0].events", "{\"opens\": 10, \"closes\": 60}");
        Assert.Equal("180 after 180: I1 150, I3 110, E3 110, E4 150", StopsJob.Stops(draft)[0]);
    }

    [Fact]
    public void Stops_SideWhoseValvesAllHaveEvents_NeedsNone()
    {
        JobDraft draft = Single().Set("$.engine.valves[0].events", "{\"opens\": 10, \"closes\": 50}").Remove("$.engine.layout.intake");
        Assert.Equal(["0 after 0: I1 110, E1 110"], StopsJob.Stops(draft));
    }

    // I1 is off its heel from 330 to 610 with events at 1 mm, from 340 to 600 with true ones: 110 degrees of slack at TDC and 120.
    [Theory]
    [InlineData("1", "0 after 0: I1 110, E1 110")]
    [InlineData("0", "0 after 0: I1 120, E1 120")]
    [InlineData("4", "0 after 0: I1 100, E1 100")]
    public void Stops_LiftOfTheEvents_WidensTheRamp(string lift, string stop) =>
        Assert.Equal([stop], StopsJob.Stops(Single().Set("$.engine.layout.eventsAtMm", lift)));

    [Fact]
    public void Stops_Decompressor_KeepsTheValveFromItsDeadCentre()
    {
        JobDraft draft = Single().Set("$.engine.valves[1].alsoOffHeel", "[{\"from\": -20, \"length\": 40}]");
        StopsJob.Refuses(draft, "$.engine.layout.marks", "no dead centre and no mark finds E1 on the heel of its cam; add a mark to marks, or set stopsAt to \"anywhere\"");
        Assert.Equal(["75 after 75: I1 185, E1 35"], StopsJob.Stops(draft.Set("$.engine.layout.stopsAt", "\"anywhere\"")));
    }

    /// <summary>The first cylinder of the four alone.</summary>
    private static JobDraft Single() => Cylinders(1);

    /// <summary>The first two cylinders of the four, cylinder 2 last.</summary>
    private static JobDraft Twin() => Cylinders(2);

    private static JobDraft Cylinders(int count)
    {
        JobDraft draft = StopsJob.Four().Set("$.engine.layout.firingOrder", count == 1 ? "[1]" : "[1, 2]");
        for (int v = 7; v >= 2 * count; v--)
        {
            draft.Remove($"$.engine.valves[{v}]");
        }

        return draft;
    }
}
