using System.Text.Json;
using Shimwright.Domain.Advice;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Results;

public class NextResultTests
{
    public static TheoryData<string> Demos() => [.. Demo.Files];

    /// <summary>Sizes far apart, and a blade of next to nothing, made the program fall.</summary>
    [Theory]
    [InlineData("$.stock.buy", """{"from": 1.2, "to": 3.5, "step": 0.5, "price": 6}""")]
    [InlineData("$.check.blades", "[1e-300, 0.10, 0.13]")]
    public void Of_JobWithAnExtreme_AnswersWithoutKnownShims(string path, string value)
    {
        JobDraft draft = Sample.Shims().Set(path, value).Set("$.check.fitted", "[]").Remove("$.recheck");
        Assert.NotNull(NextResult.Of(Reading.Takes(draft, JobPurpose.Next)));
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void Write_DemoJob_HasTheShapeOfTheContract(string demo)
    {
        using JsonDocument answer = Next(Demo.Draft(demo));
        JsonElement root = answer.RootElement;
        Shape.AssertMembers(root, "format", "planNow", "minutes", "chanceAll", "next");
        Shape.AssertTidy(root);
        Assert.Equal("shimwright-next/1", root.GetProperty("format").GetString());
        JsonElement[] lines = [.. root.GetProperty("next").EnumerateArray()];
        Assert.Equal(lines.Length == 0, root.GetProperty("planNow").GetBoolean());
        double[] net = [.. lines.Select(n => n.GetProperty("saves").GetDouble() - n.GetProperty("takes").GetDouble())];
        Assert.All(net, n => Assert.True(n > 0));
        Assert.Equal(net.OrderDescending(), net);
        Assert.All(lines, AssertLine);
        // One line for each valve, kind and shim.
        Assert.Equal(lines.Length, lines.Select(n => $"{n.GetProperty("do")} {n.GetProperty("valve")} {n.GetProperty("shim")} {n.GetProperty("access")}").Distinct().Count());
    }

    /// <summary>A plan finds the best line with less work than the list: it is the same.</summary>
    [Theory]
    [MemberData(nameof(Demos))]
    public void WithFirst_DemoJob_CarriesTheBestLine(string demo)
    {
        Job job = Reading.Takes(Demo.Draft(demo), JobPurpose.Plan);
        NextRow? first = PlanResult.WithFirst(job).First;
        Assert.Equal(Written(NextResult.Of(job).First), Written(first));
        Assert.Null(PlanResult.Of(job).First);
        static string? Written(NextRow? row) => row is null ? null : ResultJson.Write(row, indented: false);
    }

    [Fact]
    public void Of_ShimsNotKnownYet_CountsStepsOfWhatCanBeBought()
    {
        NextResult next = NextResult.Of(Reading.Takes(Sample.Shims().Remove("$.check.fitted"), JobPurpose.Next));
        Assert.True(next.Minutes > 0);
        Assert.DoesNotContain(next.Next, n => n.Do == "micrometer");
    }

    [Fact]
    public void Of_OwnMinutes_DecideWhatPays()
    {
        JobDraft draft = Demo.Draft("01-flood-pump.json");
        Assert.Contains(NextResult.Of(Reading.Takes(draft, JobPurpose.Next)).Next, n => n.Do == "depth");
        JobDraft without = draft.Set("$.settings", """{"minutes": {"depth": 100000}}""");
        Assert.DoesNotContain(NextResult.Of(Reading.Takes(without, JobPurpose.Next)).Next, n => n.Do == "depth");
    }

    /// <summary>The same blade once more is said to be that; another one, or a stack as thick, is not.</summary>
    [Theory]
    [InlineData("""[{"blade": 0.2, "feel": "light"}, {"blade": 0.25, "feel": "firm"}]""", "Try 0.20 at E2 again.")]
    [InlineData("""[{"blade": 0.18, "feel": "light"}, {"blade": 0.25, "feel": "firm"}]""", "Try 0.20 at E2.")]
    [InlineData("""[{"blade": 0.2, "leaves": 2, "feel": "light"}, {"blade": 0.25, "feel": "firm"}]""", "Try 0.20 at E2.")]
    public void Words_ABladeThatWasTriedThere_SayAgain(string trials, string words)
    {
        Job job = Reading.Takes(Demo.Draft("01-flood-pump.json").Set("$.check.readings", $$"""[{"valve": "E2", "trials": {{trials}}}]"""), JobPurpose.Next);
        var action = new AdvisedAction(ActionKind.Blade, 2, 0.5, 3, [0.2], null, null, []);
        Assert.Equal(words, NextRow.Of(action, job.Check).Words);
    }

    [Fact]
    public void Words_AStackThatWasTriedThere_SayAgain()
    {
        JobDraft draft = Demo.Draft("01-flood-pump.json").Set("$.check.readings", """[{"valve": "E2", "trials": [{"blade": 0.53, "leaves": 2, "feel": "no"}]}]""");
        var action = new AdvisedAction(ActionKind.Blade, 2, 1, 3, [0.25, 0.28], null, null, []);
        Assert.Equal("Try 0.25 and 0.28 together at E2 again.", NextRow.Of(action, Reading.Takes(draft, JobPurpose.Next).Check).Words);
    }

    private static JsonDocument Next(JobDraft draft) =>
        JsonDocument.Parse(ResultJson.Write(NextResult.Of(Reading.Takes(draft, JobPurpose.Next)), indented: false));

    private static void AssertLine(JsonElement line)
    {
        Shape.AssertMembers(line, "do", "valve", "blades", "leaves", "shim", "access", "saves", "takes", "outcomes", "words");
        string kind = line.GetProperty("do").GetString()!;
        Assert.Equal(kind == "blade", line.GetProperty("leaves").GetInt32() > 0);
        Assert.Equal(kind == "micrometer", line.GetProperty("shim").ValueKind == JsonValueKind.Object);
        Assert.Equal(kind is "depth" or "dryFit", line.GetProperty("access").ValueKind == JsonValueKind.String);
        JsonElement[] outcomes = [.. line.GetProperty("outcomes").EnumerateArray()];
        Assert.Equal(kind switch { "blade" => 4, "bucket" => 2, _ => 0 }, outcomes.Length);
        if (outcomes.Length > 0)
        {
            Assert.Equal(1, outcomes.Sum(o => o.GetProperty("chance").GetDouble()), 1e-5);
        }

        Assert.EndsWith(".", line.GetProperty("words").GetString()!, StringComparison.Ordinal);
    }
}
