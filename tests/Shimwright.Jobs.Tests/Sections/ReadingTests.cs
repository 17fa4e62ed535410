using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Sections;

public class ReadingTests
{
    [Fact]
    public void Read_ReadingOfNothing_IsRefused() => Reading.Refuses(
        Sample.Shims().Set("$.check.readings[0]", """{"valve": "I1"}"""), "$.check.readings[0]", "nothing was read");

    [Fact]
    public void Read_ReadingWithNoTrialInItsList_IsRefused() => Reading.Refuses(
        Sample.Shims().Set("$.check.readings[0].trials", "[]"), "$.check.readings[0].trials", "found no trial");

    [Fact]
    public void Read_EmptyTrialsBesideAValue_AreTaken() =>
        Reading.Takes(Sample.Shims().Set("$.check.readings[1].trials", "[]"));

    [Fact]
    public void Read_UncertaintyWithoutAValue_IsRefused() => Reading.Refuses(
        Sample.Shims().Remove("$.check.readings[1].value"), "$.check.readings[1].u", "u belongs beside value");

    [Theory]
    [InlineData("{\"valve\": \"I1\", \"bucketTurns\": false}")]
    [InlineData("{\"valve\": \"I1\", \"value\": -0.05}")]
    [InlineData("{\"valve\": \"I1\", \"trials\": [{\"blade\": 0.1, \"feel\": \"no\"}], \"value\": 0.05, \"bucketTurns\": true}")]
    public void Read_AnyOfTheThreeKinds_IsTaken(string reading) =>
        Reading.Takes(Sample.Shims().Set("$.check.readings[0]", reading));

    [Theory]
    [InlineData("$.engine.valvetrain", "\"shim-under-bucket\", \"shim-over-bucket\", \"graded-bucket\", \"finger-follower\", \"screw\"")]
    [InlineData("$.engine.valves[0].side", "\"intake\", \"exhaust\"")]
    [InlineData("$.engine.layout.stopsAt", "\"marks\", \"anywhere\"")]
    [InlineData("$.engine.wear.clock", "\"hours\", \"km\"")]
    [InlineData("$.check.readings[0].trials[0].feel", "\"no\", \"firm\", \"light\", \"loose\"")]
    [InlineData("$.check.fitted[0].by", "\"marked\", \"calliper\", \"micrometer\"")]
    [InlineData("$.format", "\"shimwright-job/1\"")]
    public void Read_WordThatIsNoChoice_IsRefusedWithAllThatAre(string path, string choices)
    {
        Reading.Refuses(Sample.Shims().Set(path, "\"Loose\""), path, "found \"Loose\"; allowed is " + choices);
        foreach (string choice in choices.Split(", ").Except(["\"screw\""]))
        {
            Reading.Takes(Sample.Shims().Set(path, choice));
        }
    }

    [Fact]
    public void Read_ThresholdsOfFeelThatDoNotRise_AreRefused() => Reading.Refuses(
        Sample.Shims().Set("$.settings.feel.light", "0.02"), "$.settings.feel", "the three must rise");

    [Fact]
    public void Read_FiringAnglesThatDoNotMatchTheOrder_AreRefused() => Reading.Refuses(
        Sample.Shims().Set("$.engine.layout.firingAngles", "[0, 360]"), "$.engine.layout.firingAngles", "found 2 angles; one for each of the 1 cylinders");
}
