using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Sheets;

public class JobSheetTests
{
    [Fact]
    public void Of_NoFacts_IsWhatTheSetupSays()
    {
        JobSheet sheet = Ledger.Shims().Sheet;
        Assert.Equal(0, sheet.Last);
        Assert.Equal(new CheckStated(118, 20), sheet.Check);
        Assert.Equal(20, sheet.RecheckTemperature);
        Assert.Null(sheet.Suspected);
        Assert.Null(sheet.Plan);
        Assert.Null(sheet.Closing);
        Assert.Null(sheet.FoundAt("I1"));
        Assert.Null(sheet.ChangeAt("I1"));
        Assert.Equal(JobStage.Measure, JobStages.Of(sheet));
    }

    [Fact]
    public void Of_TwoFactsOfOneSubject_TheNewerHolds()
    {
        Ledger ledger = Ledger.Shims();
        ledger.Add(new ThicknessFound("I1", 2.62, "marked"));
        ledger.Add(new CheckStated(119, 25));
        ledger.Add(new ThicknessFound("E1", 2.75, "marked"));
        ledger.Add(new ThicknessFound("I1", 2.60, "micrometer"));
        Assert.Equal(new ThicknessFound("I1", 2.60, "micrometer"), ledger.Sheet.FoundAt("I1"));
        Assert.Equal(new ThicknessFound("E1", 2.75, "marked"), ledger.Sheet.FoundAt("E1"));
        Assert.Equal((119, 25, 25), (ledger.Sheet.Check.Clock, ledger.Sheet.Check.TemperatureC, ledger.Sheet.RecheckTemperature));
    }

    [Fact]
    public void Of_Readings_AddUpInOrder()
    {
        Ledger ledger = Ledger.Shims();
        JobFact[] facts =
        [
            new BladeTried(SheetPart.Check, "I1", 0.10, 1, "loose"), new BladeTried(SheetPart.Check, "I1", 0.10, 1, "loose"),
            new BucketTurned(SheetPart.Check, "I1", true), new ClearanceRead(SheetPart.Check, "I1", 0.14, 0.01),
        ];
        foreach (JobFact fact in facts)
        {
            ledger.Add(fact);
            ledger.Add(new BladeTried(SheetPart.Check, "E1", 0.2, 1, "firm"));
        }

        Assert.Equal(facts, ledger.Sheet.Readings(SheetPart.Check, "I1").Select(e => e.Fact));
        Assert.Equal(7, ledger.Sheet.LastReading(SheetPart.Check, "I1")?.Number);
        Assert.Null(ledger.Sheet.LastReading(SheetPart.Recheck, "I1"));
    }

    [Fact]
    public void Undone_AReading_TakesItBackAndTheOneBeforeStays()
    {
        Ledger ledger = Ledger.Shims();
        ledger.Add(new ClearanceRead(SheetPart.Check, "I1", 0.14, 0.01));
        Guid wrong = ledger.Add(new ClearanceRead(SheetPart.Check, "I1", 0.41, 0.01));
        ledger.Add(new Undone(wrong));
        Assert.Equal([0.14], ledger.Sheet.Readings(SheetPart.Check, "I1").Select(e => ((ClearanceRead)e.Fact).Value));
        Assert.Equal(3, ledger.Sheet.Entries.Count);
        Assert.False(ledger.Sheet.Counts(new Undone(wrong)));
    }

    [Fact]
    public void Undone_ACorrection_BringsBackWhatItCorrected()
    {
        Ledger ledger = Ledger.Shims();
        ledger.Add(new ThicknessFound("I1", 2.62, "marked"));
        ledger.Add(new Undone(ledger.Add(new ThicknessFound("I1", 2.26, "marked"))));
        Assert.Equal(2.62, ledger.Sheet.FoundAt("I1")?.Thickness);
    }

    [Fact]
    public void Undone_AnUndo_BringsTheFactBackInItsOldPlace()
    {
        Ledger ledger = Ledger.Shims();
        Guid first = ledger.Add(new ThicknessFound("I1", 2.62, "marked"));
        ledger.Add(new ThicknessFound("E1", 2.75, "marked"));
        Guid undo = ledger.Add(new Undone(first));
        Assert.Null(ledger.Sheet.FoundAt("I1"));
        Guid again = ledger.Add(new Undone(undo));
        Assert.Equal([1, 2], ledger.Sheet.InForce.Select(e => e.Number));
        Assert.False(ledger.Sheet.Counts(new Undone(undo)));
        ledger.Add(new Undone(again));
        Assert.Equal([2], ledger.Sheet.InForce.Select(e => e.Number));
    }

    [Fact]
    public void Undone_AnActionWithSeveralFacts_TakesAllOfThemBack()
    {
        Ledger ledger = Ledger.Shims();
        Guid both = ledger.Add([new ThicknessFound("I1", 2.62, "marked"), new ThicknessFound("E1", 2.75, "marked")]);
        ledger.Add(new Undone(both));
        Assert.Empty(ledger.Sheet.InForce);
    }

    [Fact]
    public void Undone_OneFactOfAnAction_LeavesTheOthers()
    {
        Ledger ledger = Ledger.Shims();
        Guid both = ledger.Add([new ThicknessFound("I1", 2.62, "marked"), new ThicknessFound("E1", 2.75, "marked")]);
        ledger.Add(new Undone(both, 2));
        Assert.Equal(2.62, ledger.Sheet.FoundAt("I1")?.Thickness);
        Assert.Null(ledger.Sheet.FoundAt("E1"));
    }

    [Fact]
    public void With_AFact_LeavesTheSheetAsItIs()
    {
        JobSheet sheet = Ledger.ShimsMeasured().Sheet;
        JobSheet after = sheet.With(new ThicknessFound("I1", 2.5, "marked"));
        Assert.Equal(2.5, after.FoundAt("I1")?.Thickness);
        Assert.Equal(2.62, sheet.FoundAt("I1")?.Thickness);
        Assert.Equal(sheet.Last + 1, after.Last);
    }

    [Fact]
    public void IsDone_TickOfAnEarlierPlan_DoesNotCountForTheNext()
    {
        Ledger ledger = Ledger.ShimsFitted();
        Assert.True(ledger.Sheet.IsDone(FitSteps.Timing));
        ledger.Add(new PlanReleased());
        ledger.Add(ledger.ItsPlan());
        Assert.False(ledger.Sheet.IsDone(FitSteps.Timing));
        Assert.Equal(JobStage.Fit, JobStages.Of(ledger.Sheet));
    }

    [Fact]
    public void IsDone_TickTakenBack_IsNotDone()
    {
        Ledger ledger = Ledger.ShimsFitted();
        ledger.Add(new StepTicked(FitSteps.Timing, false));
        Assert.False(ledger.Sheet.IsDone(FitSteps.Timing));
    }

    [Fact]
    public void Readings_OfARecheckBeforeTheNewestChange_NoLongerCount()
    {
        Ledger ledger = Ledger.ShimsFitted();
        ledger.Add(new ClearanceRead(SheetPart.Recheck, "E1", 0.19, 0.01));
        ledger.Add(new ClearanceRead(SheetPart.Recheck, "I1", 0.15, 0.01));
        ledger.Add(new ShimFitted("E1", new(2.70, "calliper"), new(2.68, "marked")));
        Assert.Empty(ledger.Sheet.Readings(SheetPart.Recheck, "E1"));
        Assert.Single(ledger.Sheet.Readings(SheetPart.Recheck, "I1"));
        Assert.Equal(JobStage.Recheck, JobStages.Of(ledger.Sheet));
    }

    [Fact]
    public void ChangeAt_SameChangeSentAgain_KeepsItsRecheck()
    {
        Ledger ledger = Ledger.ShimsFitted();
        ledger.Add(new ClearanceRead(SheetPart.Recheck, "E1", 0.22, 0.01));
        ledger.Add(new ShimFitted("E1", new(2.75, "micrometer"), new(2.70, "calliper")));
        Assert.Single(ledger.Sheet.Readings(SheetPart.Recheck, "E1"));
    }

    [Fact]
    public void ChangeAt_CorrectionOfWhatWentIn_TakesThePlaceOfTheOldOne()
    {
        Ledger ledger = Ledger.ShimsFitted();
        ledger.Add(new ShimFitted("E1", new(2.75, "micrometer"), new(2.71, "micrometer")));
        Assert.Equal(new ShimFitted("E1", new(2.75, "micrometer"), new(2.71, "micrometer")), ledger.Sheet.ChangeAt("E1"));
    }

    [Fact]
    public void ChangeAt_CorrectionWhereBothWereSwapped_TakesThePlaceOfTheOldOne()
    {
        Ledger ledger = Ledger.ShimsPlanned();
        ledger.Add(new ShimFitted("E1", new(2.70, "calliper"), new(2.75, "micrometer")));
        ledger.Add(new ShimFitted("E1", new(2.75, "micrometer"), new(2.70, "calliper")));
        Assert.Equal(new ShimFitted("E1", new(2.75, "micrometer"), new(2.70, "calliper")), ledger.Sheet.ChangeAt("E1"));
    }

    [Fact]
    public void ChangeAt_ThreeShimsInTurn_LeadsFromTheFirstToTheLast()
    {
        Ledger ledger = Ledger.ShimsFitted();
        ledger.Add(new ShimFitted("E1", new(2.70, "calliper"), new(2.68, "marked")));
        Guid last = ledger.Add(new ShimFitted("E1", new(2.68, "marked"), new(2.65, "marked")));
        Assert.Equal(new ShimFitted("E1", new(2.75, "micrometer"), new(2.65, "marked")), ledger.Sheet.ChangeAt("E1"));
        ledger.Add(new Undone(last));
        Assert.Equal(new ShimFitted("E1", new(2.75, "micrometer"), new(2.68, "marked")), ledger.Sheet.ChangeAt("E1"));
    }

    [Fact]
    public void PlanIsOutdated_SomethingItRestsOnCameOrWent_IsTrue()
    {
        Ledger ledger = Ledger.ShimsMeasured();
        Guid reading = ledger.Add(new ClearanceRead(SheetPart.Check, "I1", 0.14, 0.02));
        Assert.False(ledger.Sheet.PlanIsOutdated);
        ledger.Add(ledger.ItsPlan());
        ledger.Add(new JobNoted("tea"));
        Assert.False(ledger.Sheet.PlanIsOutdated);
        Guid undo = ledger.Add(new Undone(reading));
        Assert.True(ledger.Sheet.PlanIsOutdated);
        ledger.Add(new Undone(undo));
        Assert.True(ledger.Sheet.PlanIsOutdated);
        ledger.Add(ledger.ItsPlan());
        Assert.False(ledger.Sheet.PlanIsOutdated);
        ledger.Add(new LossSuspected("dust"));
        Assert.True(ledger.Sheet.PlanIsOutdated);
    }
}
