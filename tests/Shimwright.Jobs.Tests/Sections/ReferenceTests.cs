using Shimwright.Jobs.Members;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Sections;

public class ReferenceTests
{
    [Theory]
    [InlineData("$.check.readings[0].valve")]
    [InlineData("$.check.fitted[0].valve")]
    [InlineData("$.recheck.changed[0].valve")]
    [InlineData("$.recheck.readings[0].valve")]
    public void Read_ValveThatTheEngineHasNot_IsRefusedWithTheValvesThatItHas(string path) => Reading.Refuses(
        Sample.Shims().Set(path, "\"I9\""), path, "found \"I9\", which is no valve of this engine; its valves are I1, E1");

    [Fact]
    public void Read_ValveInOtherCase_IsNoValve() => Reading.Refuses(
        Sample.Shims().Set("$.check.fitted[0].valve", "\"i1\""), "$.check.fitted[0].valve", "found \"i1\", which is no valve");

    [Fact]
    public void Read_AccessThatNoValveHas_IsRefusedWithThoseThatThereAre()
    {
        ParsedJob reading = Reading.Of(Sample.Shims().Set("$.costs.access['exhaust cams']", "25").Text);
        JobProblem problem = Assert.Single(reading.Problems);
        Assert.StartsWith("$.costs.access", problem.Path, StringComparison.Ordinal);
        Assert.Contains("exhaust cams", problem.ToString(), StringComparison.Ordinal);
        Assert.Contains("\"intake cam\", \"exhaust cam\"", problem.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_ValveIdTwice_IsRefused()
    {
        ParsedJob reading = Reading.Of(Sample.Shims().Set("$.engine.valves[1].id", "\"I1\"").Text);
        Assert.Contains(reading.Problems, p =>
            p.Path.StartsWith("$.engine.valves", StringComparison.Ordinal)
            && p.ToString().Contains("\"I1\"", StringComparison.Ordinal)
            && p.ToString().Contains("id of its own", StringComparison.Ordinal));
    }

    [Fact]
    public void Read_TwoThicknessesAtAValve_AreRefusedAtTheSecond() => Reading.Refuses(
        Sample.Shims().Append("$.check.fitted", """{"valve": "I1", "thickness": 2.6, "by": "marked"}"""),
        "$.check.fitted[2].valve",
        "\"I1\" has a thickness already; each valve once");

    [Fact]
    public void Read_TwoChangesAtAValve_AreRefusedAtTheSecond() => Reading.Refuses(
        Sample.Shims().Append(
            "$.recheck.changed",
            """{"valve": "E1", "from": {"thickness": 2.7, "by": "marked"}, "to": {"thickness": 2.6, "by": "marked"}}"""),
        "$.recheck.changed[1].valve",
        "\"E1\" was changed already; each valve once");

    [Fact]
    public void Read_SeveralReadingsOfAValve_Combine()
    {
        Job job = Reading.Takes(Sample.Shims().Append("$.check.readings", """{"valve": "E1", "trials": [{"blade": 0.15, "feel": "firm"}]}"""));
        Assert.Single(job.Check.Readings[1].Trials);
        Assert.Single(job.Check.Readings[1].Values);
        Assert.Single(job.Check.Readings[1].BucketTurns);
    }

    [Fact]
    public void Read_BladeTwiceInTheSet_IsRefused() => Reading.Refuses(
        Sample.Shims().Append("$.check.blades", "0.1"), "$.check.blades", "the blade 0.1 stands there twice");

    [Theory]
    [InlineData("I\\n9")]
    [InlineData("I\\u001b[2J9")]
    [InlineData("I\\r9")]
    public void Read_NameWithControlCharacters_LeavesEveryProblemOneLine(string name)
    {
        ParsedJob reading = Reading.Of(Sample.Shims().TextWith("\"valve\":\"I1\",\"thickness\"", $"\"valve\":\"{name}\",\"thickness\""));
        Assert.NotEmpty(reading.Problems);
        Assert.All(reading.Problems, Reading.AssertOneLine);
    }

    [Fact]
    public void Read_ValveWithoutABand_IsStillAValveElsewhere() => Reading.Refuses(
        Sample.Shims().Remove("$.engine.valves[0].band"), "$.engine.valves[0].band", "missing", JobPurpose.Plan);
}
