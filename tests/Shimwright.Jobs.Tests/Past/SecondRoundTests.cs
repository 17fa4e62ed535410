using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Tests.Samples;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Tests.Past;

public class SecondRoundTests
{
    [Fact]
    public void Of_TheSingleOfTheDemo_StartsFromTheRecheckWithTheFirstCheckAsItsPast()
    {
        Ledger first = Ledger.ImportedJob(Demo.Text("01-dusty-single.json"));
        JobSheet second = SheetOf(SecondRound.Of(first.Sheet));
        Assert.Single(second.Setup.Start.History);
        Assert.Equal(3, second.Setup.Start.History[0].Changes.Count);
        Assert.Equal(
            first.Sheet.Readings(SheetPart.Recheck, "I1").Select(e => e.Fact).OfType<BladeTried>().Select(b => (b.Blade, b.Feel)),
            second.Readings(SheetPart.Check, "I1").Select(e => e.Fact).OfType<BladeTried>().Select(b => (b.Blade, b.Feel)));
        Assert.Equal((2.0, "marked"), (second.FoundAt("I1")!.Thickness, second.FoundAt("I1")!.By));
        Assert.Equal((2.402, "micrometer"), (second.FoundAt("E1")!.Thickness, second.FoundAt("E1")!.By));
        Assert.Equal(JobStage.Plan, JobStages.Of(second));
    }

    /// <summary>E1 was neither changed nor felt again: what was read there counts once, in the new check.</summary>
    [Fact]
    public void Of_AValveLeftAlone_CountsItsReadingsOnce()
    {
        Ledger first = Ledger.ImportedJob(Demo.Text("01-dusty-single.json"));
        JobSheet second = SheetOf(SecondRound.Of(first.Sheet));
        Assert.Equal(2, second.Readings(SheetPart.Check, "E1").Count());
        Assert.True(second.Setup.Start.History[0].Check.Readings[2].IsEmpty);
        EstimateResult before = EstimateResult.Of(JobSheetFile.Read(first.Sheet, JobPurpose.Draft).Job!);
        EstimateResult after = EstimateResult.Of(JobSheetFile.Read(second, JobPurpose.Draft).Job!);
        Assert.Equal(before.Valves[2].Mean, after.Valves[2].Mean, 0.005);
        Assert.InRange(after.Valves[2].Sd, before.Valves[2].Sd / 1.2, before.Valves[2].Sd * 1.2);
    }

    /// <summary>
    /// No time passes between the rounds, so what the second check knows is what the re-check knew: the estimates agree
    /// but for the chance of a mistaken shim, which only the re-check reckons with.
    /// </summary>
    [Fact]
    public void Of_ReadingsThatAgreeWithThePlan_EstimatesAsTheRecheckDid()
    {
        Ledger first = Ledger.ImportedJob(Demo.Text("01-dusty-single.json"));
        VerdictResult verdict = VerdictResult.Of(JobSheetFile.Read(first.Sheet, JobPurpose.Verdict).Job!);
        EstimateResult second = EstimateResult.Of(JobSheetFile.Read(SheetOf(SecondRound.Of(first.Sheet)), JobPurpose.Draft).Job!);
        Assert.All(verdict.Valves.Zip(second.Valves), v => Assert.Equal(v.First.Estimate.Mean, v.Second.Mean, 0.006));
    }

    /// <summary>What went in came out of the drawer; what came out lies in it.</summary>
    [Fact]
    public void Of_TheDrawer_IsThatAfterTheWork()
    {
        JobSheet second = SheetOf(SecondRound.Of(Ledger.ImportedJob(Demo.Text("01-dusty-single.json")).Sheet));
        IReadOnlyList<ShimsAtHand> drawer = JobTerms.Stock(second).Drawer;
        Assert.Equal(1, drawer.Single(d => d.Thickness == 2.0).Count);
        Assert.Equal(2, drawer.Single(d => d.Thickness == 2.35).Count);
        Assert.Equal([2.118, 2.147, 2.378], drawer.Where(d => d.By == "micrometer").Select(d => d.Thickness).Order());
    }

    [Fact]
    public void Of_AThirdRound_KeepsBothPasts()
    {
        JobSheet second = SheetOf(SecondRound.Of(Ledger.ImportedJob(Demo.Text("01-dusty-single.json")).Sheet));
        JobSheet third = SheetOf(SecondRound.Of(second
            .With(new ShimFitted("I2", new(2.0, "marked"), new(1.95, "marked")))
            .With(new ClearanceRead(SheetPart.Recheck, "I2", 0.15, 0.01))));
        Assert.Equal(2, third.Setup.Start.History.Count);
        Assert.Equal(1.95, third.FoundAt("I2")!.Thickness);
    }

    [Fact]
    public void Of_Screws_CanBePlannedAgain()
    {
        Ledger first = Ledger.ImportedJob(Demo.WithRecheck("06-plant-engine-screws.json"));
        JobSheet second = SheetOf(SecondRound.Of(first.Sheet));
        Assert.NotNull(JobSheetFile.Read(second, JobPurpose.Plan).Job);
    }

    private static JobSheet SheetOf(ParsedSetup reading)
    {
        Assert.Empty(reading.Problems.Select(p => p.ToString()));
        JobSheet sheet = JobSheet.Of(reading.Setup!, []);
        foreach (JobFact fact in reading.Facts)
        {
            sheet = sheet.With(fact);
        }

        return sheet;
    }
}
