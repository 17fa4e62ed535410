using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Fitting;

public class JobStageTests
{
    [Fact]
    public void Of_ShimEngine_GoesThroughAllOfThem()
    {
        Ledger ledger = Ledger.Shims();
        ledger.Add(new ClearanceRead(SheetPart.Check, "I1", 0.14, 0.01));
        Assert.Equal(JobStage.Measure, JobStages.Of(ledger.Sheet));
        ledger.Add(new BucketTurned(SheetPart.Check, "E1", true));
        Assert.Equal(JobStage.Shims, JobStages.Of(ledger.Sheet));
        ledger = Ledger.ShimsMeasured();
        Assert.Equal(JobStage.Plan, JobStages.Of(ledger.Sheet));
        PlanAccepted plan = ledger.ItsPlan();
        Assert.Equal(["E1"], plan.Changes.Select(c => c.Valve));
        ledger.Add(plan);
        Assert.Equal(JobStage.Fit, JobStages.Of(ledger.Sheet));
        ledger.Add(new ShimFitted("E1", new(2.75, "micrometer"), new(2.70, "calliper")));
        Assert.Equal(JobStage.Fit, JobStages.Of(ledger.Sheet));
        ledger.TickAll();
        Assert.Equal(JobStage.Recheck, JobStages.Of(ledger.Sheet));
        ledger.Add(new ClearanceRead(SheetPart.Recheck, "I1", 0.14, 0.01));
        Assert.Equal(JobStage.Recheck, JobStages.Of(ledger.Sheet));
        ledger.Add(new ClearanceRead(SheetPart.Recheck, "E1", 0.22, 0.01));
        Assert.Equal(JobStage.Close, JobStages.Of(ledger.Sheet));
        ledger.Add(new JobClosed(119, "", "", ""));
        Assert.Equal(JobStage.Closed, JobStages.Of(ledger.Sheet));
        ledger.Add(new JobReopened());
        Assert.Equal(JobStage.Close, JobStages.Of(ledger.Sheet));
    }

    /// <summary>With every valve in band nothing is to be done; with one that is not, or only felt loose by its bucket, it is.</summary>
    [Fact]
    public void Of_EveryValveInBand_IsReadyToCloseWithoutShimsAndPlan()
    {
        Ledger ledger = Ledger.Shims();
        var engine = ledger.Sheet.Engine;
        foreach (var valve in engine.Valves)
        {
            Assert.False(NothingToDo.Is(ledger.Sheet));
            ledger.Add(new ClearanceRead(SheetPart.Check, valve.Id, valve.Band.Middle, 0.005));
        }

        Assert.True(NothingToDo.Is(ledger.Sheet));
        Assert.Equal(JobStage.Close, JobStages.Of(ledger.Sheet));
        ledger.Add(new ClearanceRead(SheetPart.Check, "I1", engine.Valves[0].Band.Low - 0.03, 0.002));
        Assert.Equal(JobStage.Shims, JobStages.Of(ledger.Sheet));
    }

    [Fact]
    public void Of_ScrewEngine_AsksForNoShimsAndNoCamshafts()
    {
        Ledger ledger = Ledger.Screws();
        ledger.Add(new ClearanceRead(SheetPart.Check, "I1", 0.15, 0.01));
        ledger.Add(new ClearanceRead(SheetPart.Check, "E1", 0.32, 0.01));
        Assert.Equal(JobStage.Plan, JobStages.Of(ledger.Sheet));
        ledger.Add(ledger.ItsPlan());
        Assert.Equal(JobStage.Fit, JobStages.Of(ledger.Sheet));
        Assert.DoesNotContain(FitSteps.For(ledger.Sheet), s => s.Name == FitSteps.Timing);
        ledger.TickAll();
        Assert.Equal(JobStage.Fit, JobStages.Of(ledger.Sheet));
        foreach (string valve in ledger.Sheet.Plan!.Changes.Select(c => c.Valve).ToArray())
        {
            ledger.Add(new ScrewTurned(valve, 0.1));
            ledger.Add(new ClearanceRead(SheetPart.Recheck, valve, 0.23, 0.01));
        }

        Assert.Equal(JobStage.Close, JobStages.Of(ledger.Sheet));
    }

    [Fact]
    public void Of_PlanThatChangesNothing_IsReadyToClose()
    {
        Ledger ledger = Ledger.ShimsMeasured();
        ledger.Add(new ClearanceRead(SheetPart.Check, "E1", 0.23, 0.002));
        PlanAccepted keep = ledger.ItsPlan();
        keep = keep with { Opened = [], Valves = [.. keep.Valves.Select(v => v with { Action = "keep", To = null })] };
        ledger.Add(keep);
        Assert.Empty(FitSteps.For(ledger.Sheet));
        Assert.Equal(JobStage.Close, JobStages.Of(ledger.Sheet));
    }

    [Fact]
    public void Of_PlanLetGo_IsThePlanAgain()
    {
        Ledger ledger = Ledger.ShimsFitted();
        ledger.Add(new PlanReleased());
        Assert.Null(ledger.Sheet.Plan);
        Assert.Equal(JobStage.Plan, JobStages.Of(ledger.Sheet));
    }

    [Fact]
    public void Of_JobFileWithItsWorkDone_AsksForTheRecheckThenForTheClosing()
    {
        Ledger ledger = Ledger.ImportedJob(Sample.Shims().Set("$.recheck.readings", "[]").Text);
        Assert.Equal(JobStage.Recheck, JobStages.Of(ledger.Sheet));
        Assert.Equal(JobStage.Close, JobStages.Of(Ledger.ImportedJob(Sample.Shims().Text).Sheet));
    }
}
