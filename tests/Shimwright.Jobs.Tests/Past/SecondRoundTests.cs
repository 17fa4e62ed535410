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
    public void Of_TheSingleOfTheDemo_StartsFromTheRecheckWithTheFirstRoundBehindIt()
    {
        Ledger first = Ledger.ImportedJob(Demo.Text("01-flood-pump.json"));
        JobSheet second = SheetOf(SecondRound.Of(first.Sheet));
        Assert.Empty(second.Setup.Start.History);
        Assert.Equal(3, Assert.Single(second.Setup.Start.Rounds).Changes.Count);
        Assert.Equal(
            first.Sheet.Readings(SheetPart.Recheck, "I1").Select(e => e.Fact).OfType<BladeTried>().Select(b => (b.Blade, b.Feel)),
            second.Readings(SheetPart.Check, "I1").Select(e => e.Fact).OfType<BladeTried>().Select(b => (b.Blade, b.Feel)));
        Assert.Equal((2.1, "marked"), (second.FoundAt("I1")!.Thickness, second.FoundAt("I1")!.By));
        Assert.Equal((2.521, "micrometer"), (second.FoundAt("E1")!.Thickness, second.FoundAt("E1")!.By));
        // The re-check passed: the round finds nothing to do.
        Assert.Equal(JobStage.Close, JobStages.Of(second));
    }

    /// <summary>E1 was neither changed nor felt again: it counts as read, in the first round, and what is known of it is what was known.</summary>
    [Fact]
    public void Of_AValveLeftAlone_KeepsWhatIsKnownOfIt()
    {
        Ledger first = Ledger.ImportedJob(Demo.Text("01-flood-pump.json"));
        JobSheet second = SheetOf(SecondRound.Of(first.Sheet));
        Assert.Empty(second.Readings(SheetPart.Check, "E1"));
        Assert.True(second.IsRead("E1"));
        VerdictResult verdict = VerdictResult.Of(JobSheetFile.Read(first.Sheet, JobPurpose.Verdict).Job!);
        Assert.Equal(verdict.Valves[2].Estimate, PlanOf(second).Valves[2].Estimate);
    }

    /// <summary>The bench's second round and plan --second on the job's file are one and the same.</summary>
    [Theory]
    [InlineData("01-flood-pump.json")]
    [InlineData("06-plant-engine-screws.json")]
    public void Of_ADemo_PlansAsTheCommandDoesFromTheRecheck(string demo)
    {
        Ledger first = Ledger.ImportedJob(Demo.WithRecheck(demo));
        PlanResult ofBench = PlanOf(SheetOf(SecondRound.Of(first.Sheet)));
        PlanResult ofFile = PlanResult.Of(Reading.Takes(new JobDraft(Demo.WithRecheck(demo)), JobPurpose.SecondPlan).NextRound());
        Assert.Equal(ResultJson.Write(ofFile, indented: true), ResultJson.Write(ofBench, indented: true));
        VerdictResult verdict = VerdictResult.Of(Reading.Takes(new JobDraft(Demo.WithRecheck(demo)), JobPurpose.Verdict));
        Assert.Equal(verdict.Valves.Select(v => v.Estimate), ofFile.Valves.Select(v => v.Estimate));
    }

    /// <summary>A valve that was changed in the first round and never felt has no reading as it is now.</summary>
    [Fact]
    public void Of_AChangedValveThatWasNotFelt_HasToBeRead()
    {
        Ledger first = Ledger.ShimsFitted();
        JobSheet second = SheetOf(SecondRound.Of(first.Sheet));
        Assert.False(second.IsRead("E1"));
        Assert.True(second.IsRead("I1"));
        Assert.Equal(JobStage.Measure, JobStages.Of(second));
        ParsedJob plan = JobSheetFile.Read(second, JobPurpose.Plan);
        Assert.Equal("$.check.readings", Assert.Single(plan.Problems).Path);
    }

    /// <summary>What went in came out of the drawer; what came out lies in it.</summary>
    [Fact]
    public void Of_TheDrawer_IsThatAfterTheWork()
    {
        JobSheet second = SheetOf(SecondRound.Of(Ledger.ImportedJob(Demo.Text("01-flood-pump.json")).Sheet));
        IReadOnlyList<ShimsAtHand> drawer = JobTerms.Stock(second).Drawer;
        Assert.Equal(1, drawer.Single(d => d.Thickness == 2.1).Count);
        Assert.DoesNotContain(drawer, d => d.Thickness == 2.25);
        Assert.Equal([2.318, 2.336, 2.484], drawer.Where(d => d.By == "micrometer").Select(d => d.Thickness).Order());
    }

    [Fact]
    public void Of_AThirdRound_KeepsBothRounds()
    {
        JobSheet second = SheetOf(SecondRound.Of(Ledger.ImportedJob(Demo.Text("01-flood-pump.json")).Sheet));
        JobSheet third = SheetOf(SecondRound.Of(second
            .With(new ShimFitted("I2", new(2.25, "marked"), new(2.2, "marked")))
            .With(new ClearanceRead(SheetPart.Recheck, "I2", 0.2, 0.01))));
        Assert.Equal(2, third.Setup.Start.Rounds.Count);
        Assert.Equal(2.2, third.FoundAt("I2")!.Thickness);
    }

    [Fact]
    public void Of_Screws_CanBePlannedAgain()
    {
        Ledger first = Ledger.ImportedJob(Demo.WithRecheck("06-plant-engine-screws.json"));
        JobSheet second = SheetOf(SecondRound.Of(first.Sheet));
        Assert.NotNull(JobSheetFile.Read(second, JobPurpose.Plan).Job);
    }

    private static PlanResult PlanOf(JobSheet sheet) => PlanResult.Of(JobSheetFile.Read(sheet, JobPurpose.Plan).Job!);

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
