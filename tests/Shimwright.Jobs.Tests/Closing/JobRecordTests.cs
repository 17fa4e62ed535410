using Shimwright.Jobs.Closing;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Closing;

/// <summary>The figures of a record are those of the commands on the sheet's job file.</summary>
public class JobRecordTests
{
    public static TheoryData<string> Files() => [.. Demo.Files];

    [Theory]
    [MemberData(nameof(Files))]
    public void Of_DemoJobWithItsWorkDone_SaysWhatEstimateAndVerdictSay(string file)
    {
        Ledger ledger = Ledger.ImportedJob(Demo.WithRecheck(file));
        ledger.TickAll();
        ledger.Add(new JobClosed(ledger.Sheet.Check.Clock + 1, "found", "notes", "by"));
        JobRecord record = RecordOfJob.Of(ledger.Sheet);
        EstimateResult estimate = EstimateResult.Of(JobSheetFile.Read(ledger.Sheet, JobPurpose.Estimate).Job!);
        VerdictResult verdict = VerdictResult.Of(JobSheetFile.Read(ledger.Sheet, JobPurpose.Verdict).Job!);
        Assert.Equal(verdict.Pass, record.Pass);
        // Nobody feels a closed job once more: the record tells of the doubtful valve in other words.
        string[] shared = [.. verdict.Cautions.Where(c => !c.Contains("passes, but only", StringComparison.Ordinal))];
        Assert.Equal(shared, record.Cautions.Where(c => !c.Contains("feel it first at the next check", StringComparison.Ordinal)));
        Assert.Equal(verdict.Cautions.Count, record.Cautions.Count);
        foreach ((int i, RecordRow row) in record.Valves.Index())
        {
            ValveEstimate before = estimate.Valves[i];
            Assert.Equal(new EstimateRow(before.Mean, before.Sd, before.Low, before.High, before.InBand, before.Status), row.Before);
            Assert.Equal((before.Valve, verdict.Valves[i].Estimate), (row.Valve, row.After));
            Assert.Equal(row.Change is null ? null : verdict.Valves[i].Predicted, row.Expected);
        }
    }

    [Fact]
    public void Of_WholeJob_HasEverythingThatWasPromisedAndDone()
    {
        Ledger ledger = Ledger.ShimsFitted();
        ledger.Add(new LossSuspected("dust"));
        ledger.Add(new ClearanceRead(SheetPart.Recheck, "E1", 0.22, 0.01));
        PlanAccepted plan = ledger.Sheet.Plan!;
        ledger.Add(new JobClosed(120, "a split boot", "check the oil", "Sam"));
        JobRecord record = RecordOfJob.Of(ledger.Sheet);
        Assert.Equal(("Bench single", 118, 120, "h", 20), (record.Engine, record.CheckClock, record.ClosedClock, record.ClockUnit, record.TemperatureC));
        Assert.Equal(("Dust got in", "a split boot", "check the oil", "Sam"), (record.Suspected, record.Found, record.Notes, record.By));
        Assert.Equal((plan.ChanceAll, plan.Minutes), (record.ChancePromised, record.MinutesPromised));
        Assert.Equal(plan.Opened, record.Opened);
        Assert.Equal(FitSteps.For(ledger.Sheet).Count, record.Steps.Count);
        Assert.True(record.Pass);
        RecordRow kept = record.Valves[0], fitted = record.Valves[1];
        Assert.Equal((null, null, false, true), (kept.Change, kept.Fitted, kept.ReadAgain, kept.Passes));
        Assert.Equal(("fit", new ThicknessRow(2.70, "calliper"), true, true), (fitted.Change, fitted.Fitted, fitted.ReadAgain, fitted.Passes));
        Assert.Equal(new ThicknessRow(2.75, "micrometer"), fitted.Found);
        Assert.Equal((null, plan.Changes.Single(c => c.Valve == "E1").To!.Source), (kept.Source, fitted.Source));
        Assert.InRange(fitted.Expected!.Mean, 0.20, 0.24);
    }

    [Fact]
    public void Of_ValveChangedAndNotFeltAgain_DoesNotPassAndSaysSo()
    {
        Ledger ledger = Ledger.ShimsFitted();
        ledger.Add(new ShimFitted("I1", new(2.62, "micrometer"), new(2.60, "marked")));
        ledger.Add(new ClearanceRead(SheetPart.Recheck, "E1", 0.22, 0.01));
        ledger.Add(new JobClosed(120, "", "", ""));
        JobRecord record = RecordOfJob.Of(ledger.Sheet);
        Assert.False(record.Pass);
        Assert.Null(record.Valves[0].After);
        Assert.NotNull(record.Valves[0].Expected);
        Assert.False(record.Valves[0].Passes);
        Assert.Contains(record.Cautions, c => c.StartsWith("Changed and not felt again: I1.", StringComparison.Ordinal));

        // The other one was felt, and is judged on that and not on what was found before the work.
        Assert.InRange(record.Valves[1].After!.Mean, 0.20, 0.24);
        Assert.True(record.Valves[1].Passes);
    }

    [Fact]
    public void Of_JobClosedWithStepsOpen_NamesThem()
    {
        Ledger ledger = Ledger.ShimsPlanned();
        ledger.Add(new StepTicked("isolate", true));
        ledger.Add(new JobClosed(120, "", "", ""));
        JobRecord record = RecordOfJob.Of(ledger.Sheet);
        Assert.Single(record.Steps);
        Assert.Contains(record.Cautions, c => c.Contains("Check the timing", StringComparison.Ordinal));
        Assert.Contains(record.Cautions, c => c.StartsWith("E1 was to be changed by the plan", StringComparison.Ordinal));
        Assert.False(record.Pass);
    }

    [Fact]
    public void Of_JobOnWhichNothingWasRead_PassesNothing()
    {
        Ledger ledger = Ledger.Shims();
        ledger.Add(new JobClosed(118, "", "", ""));
        JobRecord record = RecordOfJob.Of(ledger.Sheet);
        Assert.False(record.Pass);
        Assert.All(record.Valves, v => Assert.True(v is { Before: null, After: null, Passes: false }));
    }

    [Fact]
    public void Of_ScrewJob_HasTheTurns()
    {
        Ledger ledger = Ledger.ImportedJob(Sample.Screws().Text);
        ledger.Add(new JobClosed(900, "", "", ""));
        RecordRow row = RecordOfJob.Of(ledger.Sheet).Valves[0];
        Assert.Equal(("turn", 0.1, null), (row.Change, row.Turns, row.Fitted));
    }

    [Fact]
    public void Of_OpenJob_Throws() => Assert.Throws<InvalidOperationException>(() => RecordOfJob.Of(Ledger.Shims().Sheet));

    [Fact]
    public void Read_WhatToJsonWrote_IsTheSame()
    {
        Ledger ledger = Ledger.ShimsFitted();
        ledger.Add(new ClearanceRead(SheetPart.Recheck, "E1", 0.22, 0.01));
        ledger.Add(new JobClosed(120, "é \"½\"\n", "", ""));
        JobRecord record = RecordOfJob.Of(ledger.Sheet);
        Assert.Equivalent(record, JobRecord.Read(record.ToJson()), strict: true);
        Assert.DoesNotContain('\n', record.ToJson());
    }
}
