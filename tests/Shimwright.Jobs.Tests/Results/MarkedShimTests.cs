using System.Text.Json;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Results;

/// <summary>A kit shim that was measured is that very shim: by its measured size in the plan, by its mark in the drawer.</summary>
public class MarkedShimTests
{
    /// <summary>Two of 2.70, one of them measured at 2.703: the plan takes the one whose size it knows, and names its mark.</summary>
    [Fact]
    public void Plan_OneOfAKitMeasured_TakesItByItsSizeAndNamesItsMark()
    {
        JobDraft draft = Kit("""{"thickness": 2.703, "by": "micrometer", "marked": 2.70}""");
        FittedRow to = PlanResult.Of(Reading.Takes(draft, JobPurpose.Plan)).Valves[1].To!;
        Assert.Equal((2.703, "micrometer", "drawer", 2.70), (to.Thickness, to.By, to.Source, to.Marked));
        Assert.Contains("\"marked\":2.7", ResultJson.Write(PlanResult.Of(Reading.Takes(draft, JobPurpose.Plan)), indented: false), StringComparison.Ordinal);
    }

    /// <summary>Where it turns out to be another size than its mark, its measured size decides.</summary>
    [Fact]
    public void Plan_MeasuredFarOffItsMark_LeavesIt()
    {
        FittedRow to = PlanResult.Of(Reading.Takes(Kit("""{"thickness": 2.66, "by": "micrometer", "marked": 2.70}"""), JobPurpose.Plan)).Valves[1].To!;
        Assert.NotEqual(2.66, to.Thickness);
    }

    /// <summary>Of any other shim nothing is said that was not said before.</summary>
    [Fact]
    public void Plan_NoMark_HasNoMember() =>
        Assert.DoesNotContain("\"marked\":", ResultJson.Write(PlanResult.Of(Reading.Takes(Sample.Shims().Remove("$.stock.drawer[0].marked"), JobPurpose.Plan)), indented: false), StringComparison.Ordinal);

    [Fact]
    public void Stock_AMarkBesideAMark_IsRefused() => Reading.Refuses(
        Kit("""{"thickness": 2.70, "by": "marked", "marked": 2.75}"""), "$.stock.drawer[1].marked", "marked belongs to a shim that was measured", JobPurpose.Draft);

    /// <summary>Into the bench, as text to be edited, and out again: the mark is still there.</summary>
    [Fact]
    public void Drawer_IntoTheBenchAndOut_KeepsTheMark()
    {
        ParsedSetup setup = JobSetup.FromFile(Kit("""{"thickness": 2.703, "by": "micrometer", "marked": 2.70}""").Bytes);
        JobSheet sheet = JobSheet.Of(setup.Setup!, []);
        var lengths = new LengthStyle(LengthUnit.Mm);
        string text = StockText.Drawer(JobTerms.Stock(sheet).Drawer, lengths);
        Assert.Contains("2.703 x1 micrometer, marked 2.7", text, StringComparison.Ordinal);
        List<Shimwright.Jobs.Members.JobProblem> problems = [];
        Assert.Equal(JobTerms.Stock(sheet).Drawer, StockText.ReadDrawer(text, lengths, problems));
        Assert.Empty(problems);
        using var file = JsonDocument.Parse(JobSheetFile.Write(sheet.With(new Jobs.Facts.StockStated(JobTerms.Stock(sheet).Drawer, []))));
        Assert.Equal(2.70, file.RootElement.GetProperty("stock").GetProperty("drawer")[1].GetProperty("marked").GetDouble());
    }

    private static JobDraft Kit(string measured) => Sample.Shims()
        .Set("$.stock.drawer", $$"""[{"thickness": 2.70, "by": "marked", "count": 1}, {{measured}}]""").Remove("$.stock.buy");
}
