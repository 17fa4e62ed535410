using System.Text.Json;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Results;

public class PlanResultTests
{
    private static readonly string[] Row = ["valve", "estimate", "action", "from", "to", "after", "chance", "turns", "working"];

    public static TheoryData<string> Demos() => [.. Demo.Files];

    [Theory]
    [MemberData(nameof(Demos))]
    public void Write_DemoJob_HasTheShapeOfTheContract(string demo)
    {
        using JsonDocument answer = Plan(Demo.Draft(demo));
        JsonElement root = answer.RootElement;
        Shape.AssertMembers(
            root, "format", "valves", "opened", "stranded", "chanceAll", "minutes", "work", "toCome", "first", "bought", "alternatives", "cautions");
        Assert.Equal(root.GetProperty("minutes").GetDouble(), root.GetProperty("work").GetDouble() + root.GetProperty("toCome").GetDouble(), 0.011);
        AssertNull(root, "first");
        Shape.AssertTidy(root);
        Assert.Equal("shimwright-plan/1", root.GetProperty("format").GetString());
        Shape.AssertChance(root.GetProperty("chanceAll"));
        Assert.True(root.GetProperty("minutes").GetDouble() >= 0);
        Assert.All(root.GetProperty("stranded").EnumerateArray(), s => Shape.AssertMembers(s, "valve", "why"));
        AssertPlan(root, Reading.Takes(Demo.Draft(demo), JobPurpose.Plan));
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void Write_Alternatives_HaveTheirOwnRowsAndOneThatIsChosen(string demo)
    {
        using JsonDocument answer = Plan(Demo.Draft(demo));
        JsonElement root = answer.RootElement;
        JsonElement[] all = [.. root.GetProperty("alternatives").EnumerateArray()];
        Assert.All(all, a => Shape.AssertMembers(a, "opened", "chanceAll", "minutes", "work", "toCome", "bought", "chosen", "valves"));
        JsonElement chosen = Assert.Single(all, a => a.GetProperty("chosen").GetBoolean());
        foreach (string member in new[] { "opened", "chanceAll", "minutes", "work", "toCome", "bought", "valves" })
        {
            Assert.True(JsonElement.DeepEquals(root.GetProperty(member), chosen.GetProperty(member)), member);
        }

        Assert.All(all, a => AssertPlan(a, Reading.Takes(Demo.Draft(demo), JobPurpose.Plan)));
        Assert.All(all, a => Assert.True(a.GetProperty("minutes").GetDouble() >= chosen.GetProperty("minutes").GetDouble() - 1e-6));
    }

    [Fact]
    public void Write_KeptValve_HasNowhereToGoAndNoTurns()
    {
        using JsonDocument answer = Plan(Demo.Draft("03-leave-alone.json"));
        JsonElement row = answer.RootElement.GetProperty("valves")[0];
        Assert.Equal("keep", row.GetProperty("action").GetString());
        AssertNull(row, "to", "turns");
        Shape.AssertMembers(row.GetProperty("from"), "thickness", "by");
        Assert.Equal(row.GetProperty("estimate").GetProperty("mean").GetDouble(), row.GetProperty("after").GetProperty("mean").GetDouble());
        Assert.Equal(row.GetProperty("estimate").GetProperty("inBand").GetDouble(), row.GetProperty("chance").GetDouble());
        Assert.Equal(0, answer.RootElement.GetProperty("opened").GetArrayLength());
        Assert.Equal(0, answer.RootElement.GetProperty("bought").GetArrayLength());
    }

    [Fact]
    public void Write_BoughtShim_IsMarkedAndComesFromNoValve()
    {
        using JsonDocument answer = Plan(TooTight().Remove("$.stock.drawer"));
        JsonElement to = answer.RootElement.GetProperty("valves")[1].GetProperty("to");
        Assert.Equal((2.7, "marked", "buy"), (to.GetProperty("thickness").GetDouble(), to.GetProperty("by").GetString(), to.GetProperty("source").GetString()));
        AssertNull(to, "fromValve");
    }

    [Fact]
    public void Write_ShimFromTheDrawer_KeepsHowItWasMeasured()
    {
        using JsonDocument answer = Plan(TooTight().Remove("$.stock.buy"));
        JsonElement to = answer.RootElement.GetProperty("valves")[1].GetProperty("to");
        Assert.Equal((2.7, "calliper", "drawer"), (to.GetProperty("thickness").GetDouble(), to.GetProperty("by").GetString(), to.GetProperty("source").GetString()));
        AssertNull(to, "fromValve");
    }

    [Fact]
    public void Write_ShimFromAnotherValve_NamesIt()
    {
        using JsonDocument answer = Plan(Demo.Draft("08-in-thou.json"));
        JsonElement[] rows = [.. answer.RootElement.GetProperty("valves").EnumerateArray()];
        JsonElement to = rows[1].GetProperty("to");
        Assert.Equal(("engine", "I2"), (to.GetProperty("source").GetString(), to.GetProperty("fromValve").GetString()));
        Assert.Equal(rows[2].GetProperty("from").GetProperty("thickness").GetDouble(), to.GetProperty("thickness").GetDouble());
        Assert.Equal(rows[2].GetProperty("from").GetProperty("by").GetString(), to.GetProperty("by").GetString());
        Assert.Equal("fit", rows[2].GetProperty("action").GetString());
    }

    [Fact]
    public void Write_Screw_HasTurnsAndNoThicknesses()
    {
        using JsonDocument answer = Plan(Sample.Screws());
        JsonElement row = answer.RootElement.GetProperty("valves")[0];
        Assert.Equal("turn", row.GetProperty("action").GetString());
        AssertNull(row, "from", "to");
        Assert.True(row.GetProperty("turns").GetDouble() > 0, "the gap is too small: more clearance is positive");
        Assert.Equal(0.225, row.GetProperty("after").GetProperty("mean").GetDouble(), 6);
        using JsonDocument wide = Plan(Sample.Screws().Set("$.check.readings[0].value", "0.35"));
        Assert.True(wide.RootElement.GetProperty("valves")[0].GetProperty("turns").GetDouble() < 0);
    }

    [Fact]
    public void Write_StrandedValve_IsKeptWithNothingPromised()
    {
        using JsonDocument answer = Plan(Demo.Draft("07-stranded-valve.json"));
        JsonElement root = answer.RootElement;
        JsonElement stranded = Assert.Single(root.GetProperty("stranded").EnumerateArray());
        Assert.Equal("I1", stranded.GetProperty("valve").GetString());
        Assert.Contains("2.50", stranded.GetProperty("why").GetString(), StringComparison.Ordinal);
        JsonElement row = root.GetProperty("valves").EnumerateArray().Single(v => v.GetProperty("valve").GetString() == "I1");
        Shape.AssertMembers(row, Row);
        Assert.Equal("keep", row.GetProperty("action").GetString());
        AssertNull(row, "to", "after", "chance", "turns");
        Shape.AssertMembers(row.GetProperty("from"), "thickness", "by");
        Assert.NotEmpty(row.GetProperty("working").GetString()!);
        Assert.DoesNotContain(root.GetProperty("valves").EnumerateArray(), v =>
            v.GetProperty("to") is { ValueKind: JsonValueKind.Object } to && to.GetProperty("fromValve").GetString() == "I1");
    }

    [Fact]
    public void Write_OpenedGroups_AreThoseOfTheChangedValves()
    {
        foreach (string demo in Demo.Files)
        {
            Job job = Reading.Takes(Demo.Draft(demo), JobPurpose.Plan);
            using JsonDocument answer = Plan(Demo.Draft(demo));
            IEnumerable<string> changed = answer.RootElement.GetProperty("valves").EnumerateArray().Index()
                .Where(v => v.Item.GetProperty("action").GetString() != "keep").Select(v => job.Engine.Valves[v.Index].Access).Distinct();
            Assert.Equal(changed.Order(), answer.RootElement.GetProperty("opened").EnumerateArray().Select(o => o.GetString()!).Order());
        }
    }

    /// <summary>The exhaust valve wants a shim of about 2.70.</summary>
    private static JobDraft TooTight() => Sample.Shims().Set("$.check.readings[1].value", "0.17");

    private static void AssertPlan(JsonElement plan, Job job)
    {
        JsonElement[] rows = [.. plan.GetProperty("valves").EnumerateArray()];
        Assert.Equal(job.Engine.Valves.Select(v => v.Id), rows.Select(r => r.GetProperty("valve").GetString()));
        Assert.All(rows, AssertRow);
        JsonElement[] bought = [.. plan.GetProperty("bought").EnumerateArray()];
        Assert.All(bought, b => Shape.AssertMembers(b, "thickness", "count"));
        Assert.Equal(
            rows.Select(r => r.GetProperty("to")).Where(t => t.ValueKind == JsonValueKind.Object && t.GetProperty("source").GetString() == "buy")
                .CountBy(t => t.GetProperty("thickness").GetDouble()).OrderBy(c => c.Key).Select(c => (c.Key, c.Value)),
            bought.Select(b => (b.GetProperty("thickness").GetDouble(), b.GetProperty("count").GetInt32())).Order());
    }

    private static void AssertRow(JsonElement row)
    {
        Shape.AssertMembers(row, Row);
        Shape.AssertEstimate(row.GetProperty("estimate"));
        Assert.Contains(row.GetProperty("action").GetString(), new[] { "keep", "fit", "turn" });
        Assert.Equal(row.GetProperty("action").GetString() == "fit", row.GetProperty("to").ValueKind == JsonValueKind.Object);
        Assert.Equal(row.GetProperty("action").GetString() == "turn", row.GetProperty("turns").ValueKind == JsonValueKind.Number);
        if (row.GetProperty("to") is { ValueKind: JsonValueKind.Object } to)
        {
            Shape.AssertMembers(to, "thickness", "by", "source", "fromValve");
            Assert.Contains(to.GetProperty("source").GetString(), new[] { "drawer", "engine", "buy" });
            Assert.Equal(to.GetProperty("source").GetString() == "engine", to.GetProperty("fromValve").ValueKind == JsonValueKind.String);
        }

        if (row.GetProperty("after") is { ValueKind: JsonValueKind.Object } after)
        {
            Shape.AssertMembers(after, "mean", "sd", "low", "high");
            Shape.AssertChance(row.GetProperty("chance"));
        }
        else
        {
            AssertNull(row, "after", "chance");
        }
    }

    private static void AssertNull(JsonElement element, params string[] members) =>
        Assert.All(members, m => Assert.Equal(JsonValueKind.Null, element.GetProperty(m).ValueKind));

    private static JsonDocument Plan(JobDraft draft) => JsonDocument.Parse(Answers.Plan(draft));
}
