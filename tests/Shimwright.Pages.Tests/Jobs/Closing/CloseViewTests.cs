using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Pages.Jobs.Closing;
using Shimwright.Pages.Tests.Samples;
using Shimwright.Testing.Staged;

namespace Shimwright.Pages.Tests.Jobs.Closing;

public class CloseViewTests
{
    private static readonly ParsedSetup Pump = JobSetup.FromFile(DemoFile.Read("01-flood-pump.json"));

    [Fact]
    public void Undone_WorkDoneAndNothingFeltAgain_NamesEveryChangedValve()
    {
        JobSheet sheet = Sheet(JobStage.Recheck);
        string[] changed = [.. sheet.Engine.Valves.Select(v => v.Id).Where(v => sheet.ChangeAt(v) is not null)];
        Assert.NotEmpty(changed);
        Assert.Equal([($"Changed and not felt again: {string.Join(", ", changed)}", "recheck")], CloseView.Of(sheet, null).Undone);
    }

    [Fact]
    public void Undone_AllFeltAgainButOne_NamesThatOne()
    {
        JobSheet felt = Sheet(JobStage.Close);
        Assert.Empty(CloseView.Of(felt, null).Undone);
        JobEntry last = felt.InForce.Last(e => e.Fact is ReadingFact { Part: SheetPart.Recheck });
        (string text, string page) = Assert.Single(CloseView.Of(felt.With(new Undone(last.Action, last.Number)), null).Undone);
        Assert.Equal(($"Changed and not felt again: {((ReadingFact)last.Fact).Valve}", "recheck"), (text, page));
    }

    /// <summary>All valves pass; what is left to do is asked about all the same.</summary>
    [Fact]
    public void MustConfirm_AllPassesAndAStepIsOpen_IsAsked()
    {
        JobSheet done = Sheet(JobStage.Close);
        VerdictResult verdict = VerdictResult.Of(JobSheetFile.Read(done, JobPurpose.Verdict).Job!);
        verdict = verdict with { Valves = [.. verdict.Valves.Select(v => v with { Passes = true })] };
        Assert.False(CloseView.Of(done, verdict).MustConfirm);
        JobSheet open = done.With(new StepTicked(FitSteps.For(done).First(s => s.Must).Name, false));
        Assert.Empty(CloseView.Of(open, verdict).Fails);
        Assert.True(CloseView.Of(open, verdict).MustConfirm);
    }

    [Fact]
    public void MustConfirm_OneValveFails_IsAsked()
    {
        JobSheet done = Sheet(JobStage.Close);
        VerdictResult verdict = VerdictResult.Of(JobSheetFile.Read(done, JobPurpose.Verdict).Job!);
        verdict = verdict with { Valves = [.. verdict.Valves.Select((v, i) => v with { Passes = i > 0 })] };
        Assert.Equal([done.Engine.Valves[0].Id], CloseView.Of(done, verdict).Fails);
        Assert.True(CloseView.Of(done, verdict).MustConfirm);
    }

    private static JobSheet Sheet(JobStage stage) => JobSheet.Of(
        Pump.Setup!, [.. StagedWork.UpTo(stage, Pump).Select((f, i) => new JobEntry(i + 1, Guid.NewGuid(), "phone", DateTime.UnixEpoch, f))]);
}
