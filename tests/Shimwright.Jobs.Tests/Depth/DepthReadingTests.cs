using System.Text.Json;
using System.Text.Json.Nodes;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Depth;

public class DepthReadingTests
{
    private const string Depth = "$.check.readings[2].depth";
    private const string Known = "$.check.camshafts[1].known";

    public static TheoryData<string> Objects() =>
        [.. New().Where(p => Sample.Depths().At(p) is JsonObject)];

    public static TheoryData<string> Numbers() =>
        [.. New().Where(p => Sample.Depths().At(p).GetValueKind() == JsonValueKind.Number)];

    [Fact]
    public void Read_DepthUnderACamshaft_IsADirectValue()
    {
        Job job = Reading.Takes(Sample.Depths());

        // 17.74 - 2.62 - (12.5 - 12.48) - 15 + 0.03
        Assert.Equal(0.13, Assert.Single(job.Check.Readings[0].Values).Millimetres, 1e-9);
        Assert.Equal(job.Depths[0].Budget.Combined, job.Check.Readings[0].Values[0].Uncertainty);
        Assert.Equal(("I1", "intake cam", null), (job.Depths[0].Valve, job.Depths[0].Camshaft, job.Depths[0].Against));
        Assert.Equal(0.13, Assert.Single(job.Rechecked[0].Values).Millimetres, 1e-9);
    }

    [Fact]
    public void Read_DepthAgainstAKnownValve_NeedsNoSizes()
    {
        Job job = Reading.Takes(Sample.Depths().Set(Depth + ".camshaft", "\"exhaust cam\"").Set(Depth + ".bucket.value", "14.99"));

        // 0.17 + (14.99 - 2.62) - (15.16 - 2.75)
        Assert.Equal(0.13, job.Check.Readings[0].Values[0].Millimetres, 1e-9);
        Assert.Equal(("I1", "exhaust cam", "E1"), (job.Depths[0].Valve, job.Depths[0].Camshaft, job.Depths[0].Against));
    }

    [Fact]
    public void Read_DepthOfAValveHeldOpen_IsNegative()
    {
        Job job = Reading.Takes(Sample.Depths().Set(Depth + ".bucket.value", "17.55"));
        Assert.Equal(-0.06, job.Check.Readings[0].Values[0].Millimetres, 1e-9);
    }

    [Fact]
    public void Read_DepthAlone_IsAReading() =>
        Reading.Takes(Sample.Depths().Set("$.check.readings[0]", """{"valve": "E1", "bucketTurns": true}"""), JobPurpose.Plan);

    [Fact]
    public void Read_LengthsWithUnits_AreTaken() =>
        Assert.Equal(0.13, Reading.Takes(Sample.Depths().Set(Depth + ".bucket.value", "\"17740 µm\"")).Check.Readings[0].Values[0].Millimetres, 1e-9);

    [Theory]
    [MemberData(nameof(Objects))]
    public void Read_UnknownMemberBesideADepth_IsRefused(string path) =>
        Reading.Notes(Sample.Depths().Set(path + ".surplus", "1"), path + ".surplus", "unknown member");

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Read_NumberThatIsNone_IsRefused(string path) =>
        Reading.Notes(Sample.Depths().Set(path, "false"), path, "found false");

    [Theory]
    [InlineData("$.check.camshafts[0].name")]
    [InlineData("$.check.camshafts[0].saddle.value")]
    [InlineData("$.check.camshafts[0].saddle.u")]
    [InlineData("$.check.camshafts[0].play.u")]
    [InlineData(Known + ".valve")]
    [InlineData(Known + ".bucket")]
    [InlineData(Known + ".clearance")]
    [InlineData(Depth + ".camshaft")]
    [InlineData(Depth + ".bucket")]
    [InlineData(Depth + ".shim.u")]
    public void Read_RequiredPartLeftOut_IsMissed(string path) =>
        Reading.Notes(Sample.Depths().Remove(path), path, "missing; this member is required");

    [Fact]
    public void Read_SizesHalfStated_AreMissedByName() => Reading.Refuses(
        Sample.Depths().Remove("$.check.camshafts[0].journal").Remove("$.check.camshafts[0].saddle"),
        "$.check.camshafts[0]", "saddle, journal missing; a camshaft has saddle, journal and baseCircle, or a known valve");

    [Fact]
    public void Read_SizesBesideAKnownValve_AreRefused() => Reading.Refuses(
        Sample.Depths().Set("$.check.camshafts[1].play", """{"value": 0.02, "u": 0.01}"""),
        Known, "found it beside play; with a known valve these cancel");

    [Fact]
    public void Read_TwoCamshaftsOfOneName_AreRefused() => Reading.Refuses(
        Sample.Depths().Set("$.check.camshafts[1].name", "\"intake cam\""), "$.check.camshafts[1].name", "stands there already");

    [Fact]
    public void Read_CamshaftThatIsNotThere_IsRefusedWithThoseThatAre() => Reading.Refuses(
        Sample.Depths().Set(Depth + ".camshaft", "\"left cam\""), Depth + ".camshaft",
        "found \"left cam\", which is no camshaft of this check; known here: \"intake cam\", \"exhaust cam\"");

    [Fact]
    public void Read_DepthWithoutAnyCamshaft_IsRefused() => Reading.Refuses(
        Sample.Depths().Remove("$.check.camshafts"), Depth + ".camshaft", "there is none in camshafts");

    [Fact]
    public void Read_DepthOfTheKnownValve_IsRefused() => Reading.Refuses(
        Sample.Depths().Set("$.check.readings[2].valve", "\"E1\"").Set(Depth + ".camshaft", "\"exhaust cam\""),
        Depth, "found a depth of E1, against which the others are taken");

    [Fact]
    public void Read_DepthFarFromTheBand_IsRefused() => Reading.Refuses(
        Sample.Depths().Set(Depth + ".bucket.value", "19"), Depth, "found a clearance of 1.39; allowed is within 0.5 mm of the middle of the band, 0.15");

    [Fact]
    public void Read_UncertaintyBeyondAllUse_IsRefused() => Reading.Refuses(
        Sample.Depths().Set(Depth + ".bucket.u", "0.2").Set(Depth + ".shim.u", "0.1"), Depth, "found a combined standard uncertainty of 0.2238; allowed is up to 0.2 mm");

    [Theory]
    [InlineData("finger-follower")]
    public void Read_DepthUnderALever_IsRefused(string train)
    {
        JobDraft draft = Sample.Depths().Set("$.engine.valvetrain", $"\"{train}\"");
        Reading.Notes(draft, Depth, "depths give a clearance where the cam acts on the bucket itself");
    }

    [Fact]
    public void Read_BadDepthAndBadTrial_AreNamedTogether()
    {
        ParsedJob reading = Reading.Of(Sample.Depths().Set(Depth + ".bucket.u", "-1").Set("$.check.readings[0].trials[0].blade", "9").Text);
        Assert.Equal(["$.check.readings[0].trials[0].blade", Depth + ".bucket.u"], reading.Problems.Select(p => p.Path).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Estimate_WithDepths_HasTheirBudgets()
    {
        using JsonDocument answer = JsonDocument.Parse(Answers.Estimate(Sample.Depths()));
        JsonElement depth = Assert.Single(answer.RootElement.GetProperty("depths").EnumerateArray());

        Shape.AssertTidy(answer.RootElement);
        Shape.AssertMembers(depth, "valve", "camshaft", "against", "clearance", "u", "degrees", "k", "low", "high", "parts", "correlations");
        Assert.Equal(["bucket", "shim", "saddle", "journal", "base circle", "play"], depth.GetProperty("parts").EnumerateArray().Select(p => p.GetProperty("part").GetString()));
        double squares = depth.GetProperty("parts").EnumerateArray().Sum(p => Math.Pow(p.GetProperty("contribution").GetDouble(), 2));
        Assert.Equal(depth.GetProperty("u").GetDouble(), Math.Sqrt(squares), 2e-6);
        Assert.Equal(1, depth.GetProperty("parts").EnumerateArray().Sum(p => p.GetProperty("share").GetDouble()), 1e-6);
        Assert.Equal(0.13, depth.GetProperty("clearance").GetDouble());
    }

    [Fact]
    public void Estimate_TwoDepthsUnderOneCamshaft_SaysHowFarTheyGoTogether()
    {
        JobDraft draft = Sample.Depths().Set("$.engine.valves[1].side", "\"intake\"")
            .Append("$.check.readings", """{"valve": "E1", "depth": {"camshaft": "intake cam", "bucket": {"value": 15.2, "u": 0.005}}}""");
        using JsonDocument answer = JsonDocument.Parse(Answers.Estimate(draft));

        JsonElement other = Assert.Single(answer.RootElement.GetProperty("depths")[0].GetProperty("correlations").EnumerateArray());
        Assert.Equal("E1", other.GetProperty("valve").GetString());
        Assert.InRange(other.GetProperty("r").GetDouble(), 0.5, 0.9);
    }

    [Fact]
    public void Estimate_WithoutDepths_HasNoSuchMember()
    {
        using JsonDocument answer = JsonDocument.Parse(Answers.Estimate(Sample.Shims()));
        Assert.False(answer.RootElement.TryGetProperty("depths", out _));
    }

    [Fact]
    public void Estimate_DepthWithoutPlayOrOnFewReadings_CarriesACaution()
    {
        string[] Cautions(JobDraft draft)
        {
            using JsonDocument answer = JsonDocument.Parse(Answers.Estimate(draft));
            return [.. answer.RootElement.GetProperty("cautions").EnumerateArray().Select(c => c.GetString()!)];
        }

        Assert.DoesNotContain(Cautions(Sample.Depths()), c => c.Contains("no play is stated", StringComparison.Ordinal));
        Assert.Contains(Cautions(Sample.Depths().Remove("$.check.camshafts[0].play")), c => c.StartsWith("intake cam: no play is stated", StringComparison.Ordinal));
        Assert.Contains(Cautions(Sample.Depths().Set("$.check.camshafts[0].play.df", "2")), c => c.StartsWith("I1: the uncertainty of its depth rests on few readings", StringComparison.Ordinal));
    }

    private static IEnumerable<string> New() => Sample.Depths().Paths().Except(Sample.Shims().Paths())
        .Where(p => !p.EndsWith("readings[2]", StringComparison.Ordinal) && !p.EndsWith("readings[1]", StringComparison.Ordinal));
}
