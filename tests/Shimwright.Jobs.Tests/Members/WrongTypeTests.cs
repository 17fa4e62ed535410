using System.Text.Json.Nodes;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Members;

public class WrongTypeTests
{
    private static readonly string[] Kinds = ["null", "true", "7.25", "\"x!\"", "[]", "{}"];

    public static TheoryData<string> Everything() => [.. Sample.Shims().Paths()];

    public static TheoryData<string> EverythingOfScrews() => [.. Sample.Screws().Paths()];

    [Theory]
    [MemberData(nameof(Everything))]
    public void Read_ValueOfEveryOtherType_IsRefusedAtItsPath(string path) =>
        AssertOtherKindsAreRefused(Sample.Shims, path, path switch { "$.stock.buy" => ["{}", "[]"], "$.engine.temperature.kappaMmPerC" => ["{}"], _ => [] });

    [Theory]
    [MemberData(nameof(EverythingOfScrews))]
    public void Read_ValueOfEveryOtherTypeInAJobWithScrews_IsRefusedAtItsPath(string path) =>
        AssertOtherKindsAreRefused(Sample.Screws, path, []);

    [Theory]
    [InlineData("$.history[0].clock")]
    [InlineData("$.history[0].readings")]
    [InlineData("$.history[0].changed[0].from.thickness")]
    public void Read_WrongTypeInThePast_IsRefusedAtItsPath(string path) =>
        Reading.Notes(Sample.Shims().Append("$.history", Sample.PastCheck).Set(path, "false"), path, "found false");

    [Theory]
    [InlineData("5")]
    [InlineData("\"job\"")]
    [InlineData("[]")]
    [InlineData("null")]
    public void Read_RootThatIsNoObject_IsRefused(string text) => Reading.Refuses(text, "$", "an object { } belongs here");

    [Theory]
    [InlineData("$.engine.valves[0].cylinder")]
    [InlineData("$.stock.drawer[0].count")]
    [InlineData("$.check.readings[0].trials[0].leaves")]
    public void Read_FractionWhereAWholeNumberBelongs_IsRefused(string path) =>
        Reading.Refuses(Sample.Shims().Set(path, "1.5"), path, "found 1.5; allowed is a whole number");

    [Fact]
    public void Read_NumberBeyondAllNumbers_IsRefused() =>
        Reading.Refuses(Sample.Shims().TextWith("\"clock\":118", "\"clock\":1e999"), "$.check.clock", "found 1e999");

    [Fact]
    public void Read_NumberBelowAllNumbers_IsRefused() =>
        Reading.Refuses(Sample.Shims().TextWith("\"clock\":118", "\"clock\":-1e999"), "$.check.clock", "found -1e999");

    [Fact]
    public void Read_LongWrongValue_IsShownShortened()
    {
        JobDraft draft = Sample.Shims().Set("$.engine.valvetrain", $"\"{new string('v', 10_000)}\"");
        string problem = Assert.Single(JobFile.Read(draft.Bytes, JobPurpose.Estimate).Problems).ToString();
        Assert.InRange(problem.Length, 60, 400);
        Assert.Contains("\"screw\"", problem, StringComparison.Ordinal);
    }

    private static void AssertOtherKindsAreRefused(Func<JobDraft> sample, string path, string[] taken)
    {
        JsonNode right = sample().At(path);
        string[] wrong = [.. Kinds.Except(taken).Where(k => JsonNode.Parse(k)?.GetValueKind() is var kind && !SameKind(kind, right))];
        Assert.NotEmpty(wrong);
        foreach (string value in wrong)
        {
            Reading.Notes(sample().Set(path, value), path, "found ");
        }
    }

    private static bool SameKind(System.Text.Json.JsonValueKind? kind, JsonNode right) =>
        kind is not null && (kind == right.GetValueKind()
            || (kind == System.Text.Json.JsonValueKind.True && right.GetValueKind() == System.Text.Json.JsonValueKind.False));
}
