using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Stops;

/// <summary>One fault in a layout is one line that names its place.</summary>
public class BadLayoutTests
{
    private const string Layout = "$.engine.layout";

    public static TheoryData<string, string, string, string> Faults { get; } = new()
    {
        { $"{Layout}.firingOrder", "[1, 3, 4]", $"{Layout}.firingOrder", "cylinder 2 of I2, E2 never fires; name it there or correct the cylinder; the order has 1, 3, 4" },
        { $"{Layout}.firingOrder", "[1, 3, 4, 1, 2]", $"{Layout}.firingOrder", "cylinder 1 stands there 2 times; each cylinder fires once in a cycle" },
        { $"{Layout}.firingOrder", "[1, 3.5, 4, 2]", $"{Layout}.firingOrder", "found 3.5; cylinders are whole numbers" },
        { $"{Layout}.firingOrder", "[]", $"{Layout}.firingOrder", "found 0 entries" },
        { $"{Layout}.firingOrder", "[1, 0, 4, 2]", $"{Layout}.firingOrder[1]", "found 0; allowed is 1 to 64" },
        { $"{Layout}.firingOrder", "\"1342\"", $"{Layout}.firingOrder", "a list [ ] belongs here" },
        { $"{Layout}.firingAngles", "[0, 180, 170, 540]", $"{Layout}.firingAngles", "found 170 after 180; the angles rise with the firing order" },
        { $"{Layout}.firingAngles", "[0, 180, 360]", $"{Layout}.firingAngles", "found 3 angles; one for each of the 4 cylinders of the firing order" },
        { $"{Layout}.firingAngles", "[0, 180, 360, 720]", $"{Layout}.firingAngles", "found 0 to 720; all cylinders fire within one cycle of 720 degrees" },
        { $"{Layout}.firingAngles", "[0, 180, 360, 721]", $"{Layout}.firingAngles[3]", "found 721; allowed is -720 to 720" },
        { $"{Layout}.marks", "[10, 1000]", $"{Layout}.marks[1]", "found 1000; allowed is -720 to 720" },
        { $"{Layout}.stopsAt", "\"nowhere\"", $"{Layout}.stopsAt", "allowed is \"marks\", \"anywhere\"" },
        { $"{Layout}.rampDeg", "-1", $"{Layout}.rampDeg", "found -1; allowed is 0 to 180" },
        { $"{Layout}.intake", "{\"opensBtdc\": 10}", $"{Layout}.intake.closesAbdc", "missing; this member is required" },
        { $"{Layout}.intake", "{\"opensBtdc\": 10, \"closesAbdc\": 181}", $"{Layout}.intake.closesAbdc", "found 181; allowed is -180 to 180" },
        { $"{Layout}.exhaust", "{\"opensBbdc\": -100, \"closesAtdc\": -80}", $"{Layout}.exhaust", "found -100 and -80; a valve that closes before it opens has no opening at all" },
        { "$.engine.valves[2].cylinder", "7", $"{Layout}.firingOrder", "cylinder 7 of I2 never fires; name it there or correct the cylinder; the order has 1, 3, 4, 2" },
        { "$.engine.valves[2].events", "{\"opens\": 10}", "$.engine.valves[2].events.closes", "missing; this member is required" },
        { "$.engine.valves[2].alsoOffHeel", "[{\"from\": 0, \"length\": 0}]", "$.engine.valves[2].alsoOffHeel[0].length", "found 0; allowed is above 0 up to 720" },
        { "$.engine.valves[2].alsoOffHeel", "[{\"from\": 0, \"length\": 720}]", "$.engine.valves[2]", "valve I2 never on its heel" },
        {
            "$.engine.valves[2].events", "{\"opens\": 180, \"closes\": 180, \"also\": 1}", "$.engine.valves[2].events.also", "unknown member"
        },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void Read_OneFault_IsOneLineWithItsPath(string member, string value, string path, string words) =>
        StopsJob.Refuses(StopsJob.Four().Set(member, value), path, words);

    [Fact]
    public void Read_NoLayout_IsNamed() => StopsJob.Refuses(
        StopsJob.Four().Remove(Layout), Layout, "missing; the crank stops need the firing order and the cam events");

    [Fact]
    public void Read_NoFiringOrder_IsNamedOnce() =>
        StopsJob.Refuses(StopsJob.Four().Remove($"{Layout}.firingOrder"), $"{Layout}.firingOrder", "missing; this member is required");

    [Fact]
    public void Read_EventsOfASideMissing_AreNamedOnceForAllItsValves() => StopsJob.Refuses(
        StopsJob.Four().Remove($"{Layout}.exhaust"), $"{Layout}.exhaust", "missing; needed to know when E1, E2, E3, E4 open and close");

    [Fact]
    public void Read_EventsMissingForOneValve_NameIt()
    {
        JobDraft draft = StopsJob.Four().Remove($"{Layout}.exhaust");
        foreach (int v in new[] { 1, 3, 7 })
        {
            draft.Set($"$.engine.valves[{v}].events", "{\"opens\": 50, \"closes\": 10}");
        }

        StopsJob.Refuses(draft, $"{Layout}.exhaust", "missing; needed to know when E3 opens and closes");
    }

    // A side whose valves all have their own events needs none; that those of one cannot be read is the only fault.
    [Fact]
    public void Read_OwnEventsWithAFault_DoNotAskForTheSides()
    {
        JobDraft draft = StopsJob.Four().Remove($"{Layout}.exhaust");
        foreach (int v in new[] { 1, 3, 5, 7 })
        {
            draft.Set($"$.engine.valves[{v}].events", v == 5 ? "{\"opens\": 50}" : "{\"opens\": 50, \"closes\": 10}");
        }

        StopsJob.Refuses(draft, "$.engine.valves[5].events.closes", "missing; this member is required");
    }

    [Fact]
    public void Read_EventsAndRampThatLeaveASideNeverClosed_AreNamedOnce() => StopsJob.Refuses(
        StopsJob.Four().Set($"{Layout}.rampDeg", "95").Set($"{Layout}.intake", "{\"opensBtdc\": 180, \"closesAbdc\": 180}"),
        $"{Layout}.intake",
        "I1, I2, I3, I4 never on the heel: open for 540 degrees, and 95 more at either end; a valve is closed somewhere in the 720 degrees; see its events and rampDeg");

    [Fact]
    public void Read_EventsThatLeaveOneValveNeverClosed_NameIt() => StopsJob.Refuses(
        StopsJob.Four().Set($"{Layout}.rampDeg", "95").Set("$.engine.valves[6].events", "{\"opens\": 180, \"closes\": 180}"),
        "$.engine.valves[6]",
        "valve I4 never on its heel: open for 540 degrees, and 95 more at either end");

    [Fact]
    public void Read_SeveralFaults_AreAllNamedAtOnce()
    {
        JobDraft draft = StopsJob.Four().Set($"{Layout}.firingOrder", "[1, 3, 4]").Remove($"{Layout}.intake").Set($"{Layout}.rampDeg", "200");
        Assert.Equal(
            [$"{Layout}.rampDeg", $"{Layout}.firingOrder", $"{Layout}.intake"],
            JobFile.Read(draft.Bytes, JobPurpose.Stops).Problems.Select(p => p.Path));
    }

    // What a layout lacks for the stops is no fault where the stops are not asked for.
    [Fact]
    public void Read_LayoutWithoutEventsForAnEstimate_IsTaken()
    {
        JobDraft draft = StopsJob.Four().Remove($"{Layout}.intake").Append("$.check.readings", "{\"valve\": \"I1\", \"value\": 0.15}");
        Reading.Takes(draft, JobPurpose.Estimate);
    }
}
