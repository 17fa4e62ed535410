using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests;

public class ManyProblemsTests
{
    [Fact]
    public void Read_JobThatIsWrongInEverySection_NamesAllAtOnceWithTheirPaths()
    {
        JobDraft draft = Sample.Shims()
            .Set("$.format", "\"shimwright-job/2\"")
            .Set("$.engine.ratio", "50")
            .Set("$.engine.valves[1].band", "[0.26, 0.2]")
            .Set("$.engine.wear.interval", "0")
            .Set("$.check.temperatureC", "200")
            .Set("$.check.readings[0].trials[1].feel", "\"snug\"")
            .Set("$.check.readings[0].trials[1].leaves", "0")
            .Set("$.check.fitted[0].thickness", "262")
            .Set("$.check.fitted[1].by", "\"eye\"")
            .Set("$.recheck.readings[0].valve", "\"E9\"")
            .Set("$.stock.drawer[0].count", "-1")
            .Set("$.stock.buy.step", "0")
            .Set("$.costs.swap", "-3")
            .Set("$.settings.risk", "2")
            .Set("$.surplus", "null");

        string[] paths = [.. JobFile.Read(draft.Bytes, JobPurpose.Estimate).Problems.Select(p => p.Path)];

        Assert.Equal(
            [
                "$.check.fitted[0].thickness", "$.check.fitted[1].by", "$.check.readings[0].trials[1].feel",
                "$.check.readings[0].trials[1].leaves", "$.check.temperatureC", "$.costs.swap", "$.engine.ratio",
                "$.engine.valves[1].band", "$.engine.wear.interval", "$.format", "$.recheck.readings[0].valve",
                "$.settings.risk", "$.stock.buy.step", "$.stock.drawer[0].count", "$.surplus",
            ],
            paths.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Read_SeveralProblems_LeavesNoJob()
    {
        ParsedJob reading = Reading.Of(Sample.Shims().Set("$.engine.ratio", "50").Set("$.costs.swap", "-3").Text);
        Assert.Null(reading.Job);
        Assert.Equal(2, reading.Problems.Count);
        Assert.All(reading.Problems, Reading.AssertOneLine);
    }

    [Fact]
    public void Read_FormatAndPurposeTogether_AreNamedTogether()
    {
        JobDraft draft = Sample.Shims().Remove("$.check.fitted[0]").Remove("$.recheck").Set("$.costs.redo", "true");
        Assert.Equal(
            ["$.costs.redo", "$.check.fitted", "$.recheck"],
            JobFile.Read(draft.Bytes, JobPurpose.Verdict).Problems.Select(p => p.Path));
    }

    /// <summary>Twelve megabytes with something wrong everywhere took a minute and 2.8 GB, and were answered with 137 MB.</summary>
    [Theory]
    [InlineData("members")]
    [InlineData("twice")]
    [InlineData("drawer")]
    [InlineData("names")]
    public void Read_MoreProblemsThanAnybodyReads_StopsAtTwoHundred(string where)
    {
        JobDraft draft = Sample.Shims();
        string text = where switch
        {
            "members" => draft.Text.TrimEnd()[..^1] + string.Concat(Enumerable.Range(0, 500_000).Select(i => $", \"odd{i}\": 1")) + "}",
            "twice" => draft.Text.TrimEnd()[..^1] + string.Concat(Enumerable.Repeat(", \"stock\": 1", 500_000)) + "}",
            "drawer" => draft.Set("$.stock.drawer", "[" + string.Join(',', Enumerable.Repeat("{\"a\":1,\"b\":1,\"thickness\":\"x\"}", 10_000)) + "]").Text,
            _ => draft.Set("$.engine.valves[0].access", "[" + string.Join(',', Enumerable.Repeat("1", 100_000)) + "]").Set("$.stock.drawer", "[" + string.Join(',', Enumerable.Repeat("1", 10_000)) + "]").Text,
        };
        System.Diagnostics.Stopwatch watch = System.Diagnostics.Stopwatch.StartNew();
        long before = GC.GetAllocatedBytesForCurrentThread();
        ParsedJob reading = Reading.Of(text);
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, 10);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 300_000_000);
        Assert.Null(reading.Job);
        Assert.InRange(reading.Problems.Count, 2, 201);
        Assert.All(reading.Problems, Reading.AssertOneLine);
        Assert.Equal("and more", reading.Problems[^1].Found);
    }
}
