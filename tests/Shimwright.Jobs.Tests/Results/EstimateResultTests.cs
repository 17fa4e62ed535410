using System.Text.Json;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Results;

public class EstimateResultTests
{
    public static TheoryData<string> Demos() => [.. Demo.Files];

    [Theory]
    [MemberData(nameof(Demos))]
    public void Write_DemoJob_HasTheShapeOfTheContract(string demo)
    {
        using JsonDocument answer = JsonDocument.Parse(Answers.Estimate(Demo.Draft(demo)));
        JsonElement root = answer.RootElement;
        string[] depths = Reading.Takes(Demo.Draft(demo)).Depths.Count > 0 ? ["depths"] : [];
        Shape.AssertMembers(root, ["format", "valves", "oneCause", "nextBlade", "cautions", .. depths]);
        Shape.AssertTidy(root);
        Assert.Equal("shimwright-estimate/1", root.GetProperty("format").GetString());
        if (Demo.HasPast(demo))
        {
            Assert.Equal(JsonValueKind.Null, root.GetProperty("oneCause").ValueKind);
        }
        else
        {
            Shape.AssertChance(root.GetProperty("oneCause"));
        }

        Assert.All(root.GetProperty("valves").EnumerateArray(), row => Shape.AssertEstimate(row, "valve", "reading"));
        Assert.Equal(
            Reading.Takes(Demo.Draft(demo)).Engine.Valves.Select(v => v.Id),
            root.GetProperty("valves").EnumerateArray().Select(row => row.GetProperty("valve").GetString()));
        Assert.All(root.GetProperty("cautions").EnumerateArray(), c => Assert.NotEmpty(c.GetString()!));
    }

    [Fact]
    public void Write_ValveThatIsUnsettled_HasANextBladeOfTheSetThatWasNotTried()
    {
        using JsonDocument answer = JsonDocument.Parse(Answers.Estimate(Unsettled()));
        Assert.Equal("unsettled", answer.RootElement.GetProperty("valves")[0].GetProperty("status").GetString());
        JsonElement next = answer.RootElement.GetProperty("nextBlade");
        Shape.AssertMembers(next, "valve", "blade");
        Assert.Equal("I1", next.GetProperty("valve").GetString());
        Assert.Contains(next.GetProperty("blade").GetDouble(), new[] { 0.05, 0.13, 0.15 });
    }

    [Fact]
    public void Write_NothingUnsettled_HasANextBladeOfNull()
    {
        JobDraft draft = Sample.Shims().Set("$.check.readings[0]", """{"valve": "I1", "value": 0.15}""");
        using JsonDocument answer = JsonDocument.Parse(Answers.Estimate(draft));
        Assert.DoesNotContain(answer.RootElement.GetProperty("valves").EnumerateArray(), v => v.GetProperty("status").GetString() == "unsettled");
        Assert.Equal(JsonValueKind.Null, answer.RootElement.GetProperty("nextBlade").ValueKind);
    }

    [Fact]
    public void Write_NoBladesInTheSet_HasANextBladeOfNull()
    {
        using JsonDocument answer = JsonDocument.Parse(Answers.Estimate(Unsettled().Set("$.check.blades", "[]")));
        Assert.Equal(JsonValueKind.Null, answer.RootElement.GetProperty("nextBlade").ValueKind);
    }

    [Fact]
    public void Write_EngineWithOneSideOnly_HasAOneCauseOfAHalf()
    {
        JobDraft draft = Sample.Shims().Set("$.engine.valves[1].side", "\"intake\"");
        using JsonDocument answer = JsonDocument.Parse(Answers.Estimate(draft));
        Assert.Equal(0.5, answer.RootElement.GetProperty("oneCause").GetDouble());
        using JsonDocument both = JsonDocument.Parse(Answers.Estimate(Sample.Shims()));
        Assert.NotEqual(0.5, both.RootElement.GetProperty("oneCause").GetDouble());
    }

    [Fact]
    public void Write_ValveThatWasNotRead_StillHasItsRow()
    {
        using JsonDocument answer = JsonDocument.Parse(Answers.Estimate(Sample.Shims().Remove("$.check.readings[1]")));
        JsonElement row = answer.RootElement.GetProperty("valves")[1];
        Shape.AssertEstimate(row, "valve", "reading");
        Assert.Equal("E1", row.GetProperty("valve").GetString());
    }

    /// <summary>A single blade that was felt loose: I1 may lie in its band or above it.</summary>
    private static JobDraft Unsettled() => Sample.Shims().Set("$.check.readings[0].trials", """[{"blade": 0.10, "feel": "loose"}]""");
}
