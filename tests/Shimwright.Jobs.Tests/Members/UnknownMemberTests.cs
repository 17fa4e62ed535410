using System.Text.Json.Nodes;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Members;

public class UnknownMemberTests
{
    public static TheoryData<string> Objects() =>
    [
        "$",
        .. Sample.Shims().Paths().Where(p => Sample.Shims().At(p) is JsonObject).Except(["$.costs.access"]),
    ];

    [Theory]
    [MemberData(nameof(Objects))]
    public void Read_UnknownMemberAtAnyLevel_IsRefusedAtItsPath(string path) =>
        Reading.Refuses(Sample.Shims().Set(path + ".surplus", "1"), path + ".surplus", "unknown member; known here: ");

    [Theory]
    [InlineData("$.history[0].surplus")]
    [InlineData("$.history[0].changed[0].surplus")]
    [InlineData("$.history[0].changed[0].from.surplus")]
    public void Read_UnknownMemberInThePast_IsRefusedAtItsPath(string path) =>
        Reading.Notes(Sample.Shims().Append("$.history", Sample.PastCheck).Set(path, "1"), path, "unknown member");

    [Fact]
    public void Read_MemberInOtherCase_IsUnknownAndTheRightOneMissing()
    {
        JobDraft draft = Sample.Shims().Remove("$.check.clock").Set("$.check.Clock", "118");
        Reading.Notes(draft, "$.check.Clock", "unknown member");
        Reading.Notes(draft, "$.check.clock", "missing");
    }

    [Fact]
    public void Read_UnknownMemberWithQuotesAndBlanks_HasAPathThatQuotesIt() =>
        Reading.Refuses(
            Sample.Shims().TextWith("\"ratio\":", "\"the owner's ratio\":1,\"ratio\":"),
            @"$.engine['the owner\'s ratio']",
            "unknown member");

    [Theory]
    [InlineData("\\n")]
    [InlineData("\\u001b[31m")]
    [InlineData("\\u0085")]
    public void Read_UnknownMemberWithControlCharacters_IsStillOneLineOfPlainText(string escaped)
    {
        ParsedJob reading = Reading.Of(Sample.Shims().TextWith("\"ratio\":", $"\"sur{escaped}plus\":1,\"ratio\":"));
        Reading.AssertOneLine(Assert.Single(reading.Problems));
    }

    [Fact]
    public void Read_UnknownMemberOfGreatLength_IsShortened()
    {
        ParsedJob reading = Reading.Of(Sample.Shims().TextWith("\"ratio\":", $"\"{new string('x', 100_000)}\":1,\"ratio\":"));
        Assert.InRange(Assert.Single(reading.Problems).ToString().Length, 10, 1000);
    }
}
