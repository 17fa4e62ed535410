using System.Text.Json;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Results;

public class VerdictResultTests
{
    public static TheoryData<string> Demos() => [.. Demo.Files];

    [Theory]
    [MemberData(nameof(Demos))]
    public void Write_DemoJob_HasTheShapeOfTheContract(string demo)
    {
        using JsonDocument answer = Verdict(new JobDraft(Demo.WithRecheck(demo)));
        JsonElement root = answer.RootElement;
        Shape.AssertMembers(root, "format", "pass", "chanceAll", "valves", "cautions");
        Shape.AssertTidy(root);
        Assert.Equal("shimwright-verdict/1", root.GetProperty("format").GetString());
        JsonElement[] rows = [.. root.GetProperty("valves").EnumerateArray()];
        Assert.All(rows, AssertRow);
        Assert.Equal(rows.All(r => r.GetProperty("passes").GetBoolean()), root.GetProperty("pass").GetBoolean());
        Assert.All(rows, r => Assert.True(!r.GetProperty("passes").GetBoolean() || r.GetProperty("estimate").GetProperty("inBand").GetDouble() >= 0.8));
        Assert.True(root.GetProperty("chanceAll").GetDouble() <= rows.Min(r => r.GetProperty("estimate").GetProperty("inBand").GetDouble()) + 1e-6);
        Assert.Equal(
            Reading.Takes(Demo.Draft(demo)).Engine.Valves.Select(v => v.Id), rows.Select(r => r.GetProperty("valve").GetString()));
    }

    [Fact]
    public void Write_ValveThatWasNotReadAgain_HasNoSurpriseAndItsOwnEstimate()
    {
        using JsonDocument answer = Verdict(Sample.Shims());
        JsonElement row = answer.RootElement.GetProperty("valves")[0];
        Assert.Equal(JsonValueKind.Null, row.GetProperty("surprise").ValueKind);
        Assert.Equal(row.GetProperty("predicted").GetProperty("mean").GetDouble(), row.GetProperty("estimate").GetProperty("mean").GetDouble());
        Assert.Equal(JsonValueKind.Number, answer.RootElement.GetProperty("valves")[1].GetProperty("surprise").ValueKind);
    }

    [Theory]
    [InlineData("0.23", true)]
    [InlineData("0.29", false)]
    public void Write_Pass_IsWhereEveryValveIsMoreLikelyInItsBandThanNot(string value, bool passes)
    {
        JobDraft draft = Sample.Shims().Set("$.recheck.readings", "[{\"valve\": \"I1\", \"value\": 0.15}, {\"valve\": \"E1\", \"value\": " + value + "}]");
        using JsonDocument answer = Verdict(draft);
        Assert.Equal(passes, answer.RootElement.GetProperty("pass").GetBoolean());
    }

    /// <summary>A valve that was in band and was left alone is felt far out: that it was expected to be in is no reason to pass it.</summary>
    [Fact]
    public void Write_UnchangedValveFeltFarOut_DoesNotPass()
    {
        using JsonDocument answer = Verdict(Sample.Shims().Set("$.recheck.readings", """[{"valve": "I1", "trials": [{"blade": 0.30, "feel": "loose"}]}, {"valve": "E1", "value": 0.22, "u": 0.01}]"""));
        JsonElement row = answer.RootElement.GetProperty("valves")[0];
        Assert.True(row.GetProperty("estimate").GetProperty("inBand").GetDouble() >= 0.8);
        Assert.True(row.GetProperty("surprise").GetDouble() < 0.01);
        Assert.False(row.GetProperty("passes").GetBoolean());
        Assert.Contains(answer.RootElement.GetProperty("cautions").EnumerateArray(), c => c.GetString()!.StartsWith("I1: felt too little to pass.", StringComparison.Ordinal));
    }

    [Fact]
    public void Write_PassFloorOfTheBench_IsTheOneThatCounts()
    {
        using JsonDocument usual = Verdict(Sample.Shims());
        double least = usual.RootElement.GetProperty("valves").EnumerateArray().Min(r => r.GetProperty("estimate").GetProperty("inBand").GetDouble());
        Assert.InRange(least, 0.8, 0.9995);
        Assert.True(usual.RootElement.GetProperty("pass").GetBoolean());
        using JsonDocument strict = Verdict(Sample.Shims().Set("$.settings.passFloor", FormattableString.Invariant($"{least + 1e-4}")));
        Assert.False(strict.RootElement.GetProperty("pass").GetBoolean());
    }

    [Theory]
    [InlineData("0.22", false)]
    [InlineData("0.35", true)]
    public void Write_SurprisingReading_HasACautionToLookAgain(string value, bool isSurprising)
    {
        JobDraft draft = Sample.Shims().Set("$.recheck.readings[0]", "{\"valve\": \"E1\", \"value\": " + value + "}");
        using JsonDocument answer = Verdict(draft);
        Assert.Equal(isSurprising, answer.RootElement.GetProperty("valves")[1].GetProperty("surprise").GetDouble() < 0.01);
        string[] cautions = [.. answer.RootElement.GetProperty("cautions").EnumerateArray().Select(c => c.GetString()!)];
        Assert.Equal(isSurprising, cautions.Any(c => c.StartsWith("E1: ", StringComparison.Ordinal) && c.Contains("Look again", StringComparison.Ordinal)));
        if (isSurprising)
        {
            Assert.Contains(cautions, c => new[] { "wrong shim", "not seated", "dirt", "misread blade" }.All(w => c.Contains(w, StringComparison.Ordinal)));
        }
    }

    [Fact]
    public void Write_OtherShimOutThanWasFound_HasACaution()
    {
        using JsonDocument answer = Verdict(Sample.Shims().Set("$.recheck.changed[0].from.thickness", "2.78"));
        Assert.Contains(answer.RootElement.GetProperty("cautions").EnumerateArray(), c =>
            c.GetString()!.Contains("2.78", StringComparison.Ordinal) && c.GetString()!.Contains("2.75", StringComparison.Ordinal));
        using JsonDocument same = Verdict(Sample.Shims());
        Assert.Equal(0, same.RootElement.GetProperty("cautions").GetArrayLength());
    }

    // An unchanged valve keeps its own posterior, without strays: a re-check that contradicts it left nothing, and NaN.
    [Fact]
    public void Write_ReCheckThatContradictsAnUnchangedValve_KeepsWhatWasKnownAndSaysSo()
    {
        JobDraft draft = Sample.Shims()
            .Set("$.check.readings[0]", "{\"valve\": \"I1\", \"value\": 0.15, \"u\": 0.005}")
            .Append("$.recheck.readings", "{\"valve\": \"I1\", \"value\": 0.55, \"u\": 0.005}");
        using JsonDocument answer = Verdict(draft);
        JsonElement row = answer.RootElement.GetProperty("valves")[0];
        Assert.InRange(row.GetProperty("estimate").GetProperty("mean").GetDouble(), 0.13, 0.17);
        Assert.Equal(0, row.GetProperty("surprise").GetDouble(), 1e-9);
        Assert.Contains(answer.RootElement.GetProperty("cautions").EnumerateArray(), c => c.GetString()!.StartsWith("I1: ", StringComparison.Ordinal));
    }

    [Fact]
    public void Write_ValveThatPassesByLittle_HasACautionToFeelItOnceMore()
    {
        JobDraft draft = Sample.Shims().Set("$.recheck.readings[0]", "{\"valve\": \"E1\", \"value\": 0.204, \"u\": 0.005}");
        using JsonDocument answer = Verdict(draft);
        double inBand = answer.RootElement.GetProperty("valves")[1].GetProperty("estimate").GetProperty("inBand").GetDouble();
        Assert.InRange(inBand, 0.8, 0.9);
        Assert.Contains(answer.RootElement.GetProperty("cautions").EnumerateArray(), c => c.GetString()!.Contains("feel it once more", StringComparison.Ordinal));
    }

    private static void AssertRow(JsonElement row)
    {
        Shape.AssertMembers(row, "valve", "predicted", "estimate", "status", "surprise", "passes", "alone");
        Shape.AssertMembers(row.GetProperty("predicted"), "mean", "sd");
        Shape.AssertEstimate(row.GetProperty("estimate"));
        Assert.Equal(row.GetProperty("estimate").GetProperty("status").GetString(), row.GetProperty("status").GetString());
        if (row.GetProperty("surprise").ValueKind != JsonValueKind.Null)
        {
            Shape.AssertChance(row.GetProperty("surprise"));
        }
    }

    private static JsonDocument Verdict(JobDraft draft) => JsonDocument.Parse(Answers.Verdict(draft));
}
