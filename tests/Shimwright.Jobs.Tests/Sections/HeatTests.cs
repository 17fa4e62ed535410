using Shimwright.Domain.Engines;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Sections;

public class HeatTests
{
    private const string Kappa = "$.engine.temperature.kappaMmPerC";

    [Theory]
    [InlineData("0.0004", 0.0004, 0.0004)]
    [InlineData("""{"intake": 0.0004, "exhaust": -0.0002}""", 0.0004, -0.0002)]
    public void Read_OneNumberOrOneForEachSide_IsTaken(string kappa, double intake, double exhaust)
    {
        Engine engine = Reading.Takes(Sample.Shims().Set(Kappa, kappa)).Engine;
        Assert.Equal(intake, engine.ClearancePerDegreeOf(ValveSide.Intake));
        Assert.Equal(exhaust, engine.ClearancePerDegreeOf(ValveSide.Exhaust));
    }

    [Fact]
    public void Read_OneSideAlone_IsRefused() => Reading.Refuses(Sample.Shims().Set(Kappa, """{"intake": 0.0004}"""), $"{Kappa}.exhaust", "missing");

    [Fact]
    public void Read_SideOutOfRange_IsRefused() =>
        Reading.Refuses(Sample.Shims().Set(Kappa, """{"intake": 0.0004, "exhaust": 0.02}"""), $"{Kappa}.exhaust", "found 0.02; allowed is -0.01 to 0.01");

    [Fact]
    public void Read_Text_IsRefusedAsANumberWouldBe() => Reading.Refuses(Sample.Shims().Set(Kappa, "\"warm\""), Kappa, "found \"warm\"; allowed is -0.01 to 0.01");

    // Without a temperature of its own for the side the value of E1 would be judged by the intake's κ, which puts it out of reach.
    [Fact]
    public void Read_WarmValue_IsJudgedByTheKappaOfItsOwnSide() => Reading.Takes(
        Sample.Shims().Set(Kappa, """{"intake": -0.005, "exhaust": 0}""").Set("$.check.readings", """[{"valve": "E1", "value": 0.4}]""").Set("$.check.temperatureC", "90"),
        JobPurpose.Estimate);

    [Theory]
    [InlineData("opening", GapSense.Opening)]
    [InlineData("closing", GapSense.Closing)]
    public void Read_Sense_IsThatOfTheEngine(string sense, GapSense expected)
    {
        Assert.Equal(expected, Reading.Takes(Sample.Shims().Set("$.engine.sense", $"\"{sense}\"")).Engine.Sense);
        Reading.Refuses(Sample.Shims().Set("$.engine.sense", "\"both\""), "$.engine.sense", "found \"both\"");
    }
}
