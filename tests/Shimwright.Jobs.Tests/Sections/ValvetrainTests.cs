using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Sections;

public class ValvetrainTests
{
    [Theory]
    [InlineData("shim-under-bucket")]
    [InlineData("shim-over-bucket")]
    [InlineData("graded-bucket")]
    [InlineData("finger-follower")]
    public void Read_PitchWithoutAScrew_IsRefused(string valvetrain) => Reading.Refuses(
        Sample.Shims().Set("$.engine.valvetrain", $"\"{valvetrain}\"").Set("$.engine.pitch", "0.75"),
        "$.engine.pitch",
        "found a pitch; only the valvetrain \"screw\" has one");

    [Theory]
    [InlineData(JobPurpose.Estimate)]
    [InlineData(JobPurpose.Plan)]
    [InlineData(JobPurpose.Verdict)]
    public void Read_JobWithScrews_NeedsNoThickness(JobPurpose purpose) => Reading.Takes(Sample.Screws(), purpose);

    [Fact]
    public void Read_ThicknessAtAScrew_IsRefused() => Reading.Refuses(
        Sample.Screws().Set("$.check.fitted", """[{"valve": "I1", "thickness": 2.6, "by": "marked"}]"""),
        "$.check.fitted[0]",
        "an engine with screws has none");

    [Fact]
    public void Read_ScrewChangedByThicknesses_IsRefusedForBothReasons()
    {
        JobDraft draft = Sample.Screws().Set(
            "$.recheck.changed[0]", """{"valve": "I1", "from": {"thickness": 2.6, "by": "marked"}, "to": {"thickness": 2.5, "by": "marked"}}""");
        Reading.Notes(draft, "$.recheck.changed[0]", "an engine with screws has none; say turns");
        Reading.Notes(draft, "$.recheck.changed[0].turns", "missing");
    }

    [Fact]
    public void Read_ShimChangedByTurns_IsRefusedForAllReasons()
    {
        JobDraft draft = Sample.Shims().Set("$.recheck.changed[0]", """{"valve": "E1", "turns": 0.5}""");
        Reading.Notes(draft, "$.recheck.changed[0].turns", "only an engine with screws has them");
        Reading.Notes(draft, "$.recheck.changed[0].from", "missing");
        Reading.Notes(draft, "$.recheck.changed[0].to", "missing");
    }

    [Fact]
    public void Read_ShimChangedWithTurnsBesides_IsRefused() => Reading.Refuses(
        Sample.Shims().Set("$.recheck.changed[0].turns", "0.5"), "$.recheck.changed[0].turns", "only an engine with screws has them");

    [Fact]
    public void Read_UnknownValvetrain_IsTheOnlyProblemThatItMakes() => Reading.Refuses(
        Sample.Screws().Set("$.engine.valvetrain", "\"tappet\""), "$.engine.valvetrain", "found \"tappet\"");

    [Theory]
    [InlineData("0.5", true)]
    [InlineData("-2.25", true)]
    [InlineData("1000", false)]
    public void Read_Turns_GoBothWaysWithinReason(string turns, bool isTaken)
    {
        JobDraft draft = Sample.Screws().Set("$.recheck.changed[0].turns", turns);
        if (isTaken)
        {
            Reading.Takes(draft, JobPurpose.Verdict);
        }
        else
        {
            Reading.Refuses(draft, "$.recheck.changed[0].turns", "found 1000", JobPurpose.Verdict);
        }
    }
}
