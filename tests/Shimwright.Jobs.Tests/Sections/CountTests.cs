using System.Globalization;
using System.Text.Json.Nodes;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Sections;

public class CountTests
{
    [Fact]
    public void Read_SixtyFourValves_AreTakenAndOneMoreIsRefused()
    {
        Assert.Equal(64, Reading.Takes(WithValves(64)).Engine.Valves.Count);
        Reading.Notes(WithValves(65), "$.engine.valves", "found 65 entries; allowed are 1 to 64");
    }

    [Fact]
    public void Read_NoValve_IsRefused() => Reading.Notes(
        Sample.Shims().Set("$.engine.valves", "[]"), "$.engine.valves", "found 0 entries");

    [Fact]
    public void Read_TenThousandShimsInTheDrawer_AreTakenAndOneMoreIsRefused()
    {
        Assert.Equal(10_000, Reading.Takes(WithDrawer(10_000)).Stock.Drawer.Count);
        Reading.Refuses(WithDrawer(10_001), "$.stock.drawer", "found 10001 entries");
    }

    [Theory]
    [InlineData("", 1)]
    [InlineData(", \"count\": 0", 0)]
    [InlineData(", \"count\": 3", 3)]
    public void Read_LineOfTheDrawer_IsOneShimUnlessItSays(string member, int count) => Assert.Equal(
        count, Assert.Single(Reading.Takes(Sample.Shims().Set("$.stock.drawer", $$"""[{"thickness": 2.7, "by": "marked"{{member}}}]""")).Stock.Drawer).Count);

    [Fact]
    public void Read_TwoThousandSizesInARange_AreTakenAndOneMoreIsRefused()
    {
        JobDraft most = Sample.Shims().Set("$.stock.buy", """{"from": 1, "to": 2.999, "step": 0.001}""");
        Assert.Equal(2000, Reading.Takes(most).Stock.Sizes.Count);
        Reading.Refuses(
            Sample.Shims().Set("$.stock.buy", """{"from": 1, "to": 3, "step": 0.001}"""),
            "$.stock.buy.step",
            "which makes 2001 sizes; a range has at most 2000");
    }

    [Theory]
    [InlineData("1.20", "3.50", "0.05", 47, 3.5)]
    [InlineData("1.20", "3.54", "0.05", 47, 3.5)]
    [InlineData("0.3", "10", "0.1", 98, 10)]
    [InlineData("2.5", "2.5", "0.05", 1, 2.5)]
    [InlineData("0.3", "0.6", "0.1", 4, 0.6)]
    public void Read_RangeOfSizes_GoesUpToItsLastSize(string from, string to, string step, int count, double last)
    {
        Job job = Reading.Takes(Sample.Shims().Set("$.stock.buy", $$"""{"from": {{from}}, "to": {{to}}, "step": {{step}}}"""));
        Assert.Equal(count, job.Stock.Sizes.Count);
        Assert.Equal(last, job.Stock.Sizes[^1].Thickness.Millimetres, 9);
    }

    [Fact]
    public void Read_RangeThatRunsDown_IsRefused() => Reading.Refuses(
        Sample.Shims().Set("$.stock.buy", """{"from": 3, "to": 2, "step": 0.05}"""), "$.stock.buy.to", "found 2; allowed is from 3 on");

    [Theory]
    [InlineData("0")]
    [InlineData("-0.05")]
    public void Read_StepThatGoesNowhere_IsRefused(string step) => Reading.Refuses(
        Sample.Shims().Set("$.stock.buy.step", step), "$.stock.buy.step", $"found {step}");

    [Fact]
    public void Read_ListOfRanges_AddsTheirSizes()
    {
        JobDraft draft = Sample.Shims().Set(
            "$.stock.buy", """[{"from": 1, "to": 1.2, "step": 0.1}, {"from": 2, "to": 2.1, "step": 0.1, "price": 4}]""");
        Assert.Equal(
            [(1.0, 0.0), (1.1, 0.0), (1.2, 0.0), (2.0, 4.0), (2.1, 4.0)],
            Reading.Takes(draft).Stock.Sizes.Select(s => (s.Thickness.Millimetres, s.Price)));
    }

    [Fact]
    public void Read_WrongRangeInAList_IsNamedByItsPlace() => Reading.Refuses(
        Sample.Shims().Set("$.stock.buy", """[{"from": 1, "to": 1.2, "step": 0.1}, {"from": 2, "to": 2.1, "step": true}]"""),
        "$.stock.buy[1].step",
        "found true");

    [Fact]
    public void Read_NameOfGreatLength_IsTakenToTwoHundredCharacters()
    {
        Reading.Takes(Sample.Shims().Set("$.engine.name", $"\"{new string('n', 200)}\""));
        Reading.Refuses(
            Sample.Shims().Set("$.engine.name", $"\"{new string('n', 201)}\""), "$.engine.name", "a text of 1 to 200 characters");
    }

    [Theory]
    [InlineData("\"\"")]
    [InlineData("\"   \"")]
    [InlineData("\"\\t\\u00a0\"")]
    public void Read_BlankName_IsRefused(string name) =>
        Reading.Refuses(Sample.Shims().Set("$.engine.name", name), "$.engine.name", "a text of 1 to 200 characters");

    private static JobDraft WithValves(int count)
    {
        JobDraft draft = Sample.Shims();
        for (int v = 3; v <= count; v++)
        {
            draft.Append("$.engine.valves", string.Create(
                CultureInfo.InvariantCulture,
                $$"""{"id": "V{{v}}", "cylinder": 1, "side": "intake", "access": "intake cam", "band": [0.12, 0.18]}"""));
        }

        return draft;
    }

    private static JobDraft WithDrawer(int count) => Sample.Shims().Set(
        "$.stock.drawer",
        new JsonArray([.. Enumerable.Range(0, count).Select(_ => JsonNode.Parse("""{"thickness": 2.7, "by": "marked"}"""))]).ToJsonString());
}
