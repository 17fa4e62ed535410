using System.Text.Json.Nodes;
using Shimwright.Domain.CamTiming;
using Shimwright.Domain.CrankStops;
using Shimwright.Jobs.Results;

namespace Shimwright.Jobs.Tests.Stops;

public class TimingResultTests
{
    private static readonly TimingQuestion Nothing = new(new Sprocket(40), null, null, null, null, null);

    [Fact]
    public void Of_SprocketAlone_SaysWhatAToothIsAndCautions()
    {
        TimingResult answer = TimingResult.Of(Nothing);
        Assert.Equal(new ToothRow(9, 18), answer.Tooth);
        Assert.Equal((null, null, null, null), (answer.Mark, answer.Pins, answer.Lobes, answer.AfterClearanceChange));
        Assert.Contains("by hand only until the marks are right", Assert.Single(answer.Cautions), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(4.2, 1, "wrong: the camshaft is 1 tooth advanced, 1.0 cam degrees left over (0.11 of a tooth)")]
    [InlineData(-4.2, -1, "wrong: the camshaft is 1 tooth retarded, 1.0 cam degrees left over (0.11 of a tooth)")]
    [InlineData(9.5, 2, "wrong: the camshaft is 2 teeth advanced, 0.4 cam degrees left over (0.05 of a tooth)")]
    [InlineData(0.5, 0, "right: the camshaft is where it belongs, 1.0 cam degrees left over (0.11 of a tooth)")]
    [InlineData(2, 0, "doubtful: nearest is no tooth out, with 3.8 cam degrees left over (0.42 of a tooth). Measure again, and check the radius and the chain")]
    [InlineData(-3, -1, "doubtful: nearest is 1 tooth retarded, with 3.3 cam degrees left over (0.37 of a tooth). Measure again, and check the radius and the chain")]
    public void Of_Mark_SaysWhichWayAndHowMuchIsLeft(double offset, int teeth, string verdict)
    {
        MarkRow mark = TimingResult.Of(Nothing with { Mark = (offset, 30) }).Mark!;
        Assert.Equal((teeth, verdict), (mark.Teeth, mark.Verdict));
        Assert.Equal(mark.CamDegrees, (mark.Teeth * 9) + mark.LeftOverCamDegrees, 1e-6);
    }

    [Theory]
    [InlineData(14, 0, "right: the second camshaft is where it belongs")]
    [InlineData(15, 1, "wrong: the second camshaft is 1 tooth advanced against the first")]
    [InlineData(12, -2, "wrong: the second camshaft is 2 teeth retarded against the first")]
    public void Of_Pins_SayWhichWay(int found, int advanced, string verdict) =>
        Assert.Equal(new PinsRow(found, 14, advanced, verdict), TimingResult.Of(Nothing with { Pins = new PinCount(found, 14) }).Pins);

    [Fact]
    public void Of_Events_GiveDurationsCentresAndOverlap() => Assert.Equal(
        new LobesRow(200, 230, 115, 105, 110, -5),
        TimingResult.Of(Nothing with { Intake = new CamEvents(-15, 35), Exhaust = new CamEvents(40, 10) }).Lobes);

    [Fact]
    public void Of_EventsOfOneSide_AreNotSwallowed()
    {
        TimingQuestion question = Nothing with { Exhaust = new CamEvents(40, 10), Clearance = (0.05, 0.01) };
        TimingResult answer = TimingResult.Of(question);
        Assert.Equal(new LobesRow(null, 230, null, 105, null, null), answer.Lobes);
        Assert.Equal([new EventsRow("exhaust", 35, 5, 220)], answer.AfterClearanceChange);
    }

    [Fact]
    public void Write_Timing_HasTheMembersOfItsFormat()
    {
        TimingQuestion question = new(new Sprocket(40), (4.2, 30), new PinCount(14, 14), new CamEvents(-15, 35), new CamEvents(40, 10), (-0.05, 0.01));
        JsonObject json = JsonNode.Parse(ResultJson.Write(TimingResult.Of(question), indented: true))!.AsObject();
        Assert.Equal(["format", "tooth", "mark", "pins", "lobes", "afterClearanceChange", "cautions"], json.Select(m => m.Key));
        Assert.Equal("shimwright-timing/1", (string?)json["format"]);
        Assert.Equal(["camDegrees", "teeth", "leftOverCamDegrees", "verdict"], json["mark"]!.AsObject().Select(m => m.Key));
        Assert.Equal(7.96961, (double)json["mark"]!["camDegrees"]!);
        Assert.Equal(-10, (double)json["afterClearanceChange"]![0]!["opens"]!);
    }
}
