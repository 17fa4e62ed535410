using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sections;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Jobs.Rules;

/// <summary>What may be added to a sheet.</summary>
public static class SheetRules
{
    private const int LongestText = 4000;

    /// <summary>Says what is wrong with a fact that is about to be added.</summary>
    /// <param name="sheet">The sheet as it is.</param>
    /// <param name="fact">The fact.</param>
    /// <returns>The problems; none where the fact may be added.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> or <paramref name="fact"/> is null.</exception>
    public static IReadOnlyList<JobProblem> ProblemsOf(JobSheet sheet, JobFact fact)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(fact);
        if (sheet.IsDiscarded && fact is not (JobPutBack or BesideFact or Undone))
        {
            return [Discarded];
        }

        if (sheet.Closing is not null && fact is not (JobReopened or BesideFact or JobDiscarded or JobPutBack or Undone))
        {
            return [Closed];
        }

        if (!FactJson.CanBeKept(fact))
        {
            return [new("value", "found no number", "a finite number is needed")];
        }

        return fact switch
        {
            Undone undo => UndoProblems(sheet, undo),
            LossSuspected loss when SuspectedCause.Of(loss.Cause) is null =>
                [new("cause", $"found \"{loss.Cause}\"", $"allowed is {string.Join(", ", SuspectedCause.All.Select(c => c.Name))}")],
            ClockAnswered { Why: not (ClockAnswered.Meter or ClockAnswered.Right) } answer => [new("why", $"found \"{answer.Why}\"", $"allowed is {ClockAnswered.Meter}, {ClockAnswered.Right}")],
            JobNoted note => TextProblems("text", note.Text, needed: true),
            JobNumbered number => BesideRules.ProblemsOf(number),
            PhotoKept photo => BesideRules.ProblemsOf(sheet, photo),
            JobClosed closed => ClosingProblems(sheet, closed),
            JobReopened when sheet.Closing is null => [new("job", "the job is open", "there is nothing to open again")],
            PlanReleased when sheet.Plan is null => [new("plan", "no plan was accepted", "there is nothing to let go")],
            JobPutBack when !sheet.IsDiscarded => [new("job", "the job is not discarded", "there is nothing to put back")],
            PlanReleased or JobReopened or JobDiscarded or JobPutBack => [],
            PlanAccepted plan => AcceptedPlanRules.ProblemsOf(sheet, plan),
            StepTicked tick => StepProblems(sheet, tick),
            CrankTurned crank => CrankProblems(sheet, crank),
            ThicknessFound when !sheet.Engine.Valvetrain.HasShims => [new("thickness", "found a thickness", "an engine with screws has none")],
            CamshaftFact when sheet.Engine.Valvetrain.Adjuster is Adjuster.FingerFollower or Adjuster.Screw =>
                [new("camshaft", "found sizes of a camshaft", "depths give a clearance where the cam acts on the bucket itself; enter a measured value instead")],
            ReadingFact { Part: SheetPart.Recheck } when sheet.Plan is null && sheet.Engine.Valves.All(v => sheet.ChangeAt(v.Id) is null) =>
                [new("reading", "nothing was changed yet", "a re-check comes after the work; enter the reading under measure")],
            _ when UnknownValve(sheet, fact) is { } unknown => [unknown],
            ReadingFact { Part: SheetPart.DryFit } dry when DryFitProblem(sheet, dry) is { } problem => [problem],
            _ => FileProblems(sheet.With(fact)),
        };
    }

    /// <summary>A dry fit is felt between the shims going in and the camshaft going down for good.</summary>
    private static JobProblem? DryFitProblem(JobSheet sheet, ReadingFact dry)
    {
        string group = sheet.Engine.Valves.First(v => v.Id == dry.Valve).Access;
        return dry is DepthTaken ? new("depth", "found a depth of a dry fit", "its camshaft lies in the way; a depth is taken with it lifted")
            : !DryFits.IsPossible(sheet.Engine, group) ? new("dryFit", $"{dry.Valve} is reached without lifting a camshaft", "feel it as it is: enter the reading under re-check")
            : sheet.Engine.Under(group).All(v => sheet.ChangeAt(v.Id) is null)
                ? new("dryFit", $"no shim was changed under the {group} yet", "fit the shims first, say so under fit, and feel them then")
            : sheet.IsDone(FitSteps.Refit + group) ? new("dryFit", $"the {group} is down for good", "feel its valves under re-check")
            : null;
    }

    private static JobProblem Closed { get; } = new("job", "the job is closed", "open it again before anything is changed on it");

    private static JobProblem Discarded { get; } = new("job", "the job is discarded", "put it back before anything is changed on it");

    private static IReadOnlyList<JobProblem> UndoProblems(JobSheet sheet, Undone undo)
    {
        if (!sheet.Counts(undo))
        {
            return [new("undo", "there is nothing of that action left on this job", "it was taken back already; load the page again")];
        }

        JobSheet after = sheet.With(undo);
        JobFact[] said = [.. after.SaidBy(after.Entries[^1])];
        return sheet.IsDiscarded && said.Any(f => f is not (BesideFact or JobDiscarded or JobPutBack)) ? [Discarded]
            : sheet.Closing is not null && said.Any(f => f is not (BesideFact or JobClosed or JobReopened or JobDiscarded or JobPutBack)) ? [Closed]
            : FileProblems(after);
    }

    private static List<JobProblem> ClosingProblems(JobSheet sheet, JobClosed closed)
    {
        List<JobProblem> problems = [.. TextProblems("found", closed.Found), .. TextProblems("notes", closed.Notes), .. TextProblems("by", closed.By)];
        if (FitSteps.TimingIsOwed(sheet))
        {
            problems.Add(new("timing", "camshafts were out and the timing is not ticked", "check it and tick it under fit; an engine out of time can bend its valves"));
        }

        if (closed.Clock is < 0 or > CheckSection.LatestClock)
        {
            problems.Add(new("clock", $"found {NumberRule.Text(closed.Clock)}", $"allowed is 0 to {NumberRule.Text(CheckSection.LatestClock)}"));
        }
        else if (closed.Clock < sheet.Check.Clock)
        {
            problems.Add(new("clock", $"found {NumberRule.Text(closed.Clock)}", $"the check was made at {NumberRule.Text(sheet.Check.Clock)}; a clock does not run back"));
        }

        return problems;
    }

    private static IReadOnlyList<JobProblem> StepProblems(JobSheet sheet, StepTicked tick)
    {
        IReadOnlyList<FitStep> steps = FitSteps.For(sheet);
        return steps.Any(s => s.Name == tick.Step) ? []
            : steps.Count == 0 ? [new("step", $"found \"{tick.Step}\"", "there is nothing to tick before a plan that changes something was accepted")]
            : [new("step", $"found \"{tick.Step}\"", $"the steps are {string.Join(", ", steps.Select(s => s.Name))}")];
    }

    private static IReadOnlyList<JobProblem> CrankProblems(JobSheet sheet, CrankTurned crank) =>
        crank.Part is not (SheetPart.Check or SheetPart.Recheck) ? [new("crank", $"found {crank.Part}", "the crank is turned for a check or a re-check")]
        : sheet.Setup.Card.StopsProblems.Count > 0 ? [new("crank", "the engine's card does not say where the crank stops", "add its firing order and cam events to the card")]
        : crank.Stop is < 1 || crank.Stop > sheet.Engine.Valves.Count ? [new("crank", $"found stop {crank.Stop}", $"the stops are counted from 1, and there are no more than valves, {sheet.Engine.Valves.Count}")]
        : [];

    private static IReadOnlyList<JobProblem> TextProblems(string name, string? text, bool needed = false) =>
        needed && string.IsNullOrWhiteSpace(text) ? [new(name, "nothing was written", "write something, or leave the page")]
        : text?.Length > LongestText ? [new(name, $"found {text.Length} characters", $"allowed are {LongestText}")]
        : [];

    /// <summary>Everything else has its rule in the job file: the sheet as it would be must still be one.</summary>
    private static IReadOnlyList<JobProblem> FileProblems(JobSheet after) => JobSheetFile.Read(after, JobPurpose.Draft).Problems;

    private static JobProblem? UnknownValve(JobSheet sheet, JobFact fact)
    {
        string? valve = fact switch { ReadingFact r => r.Valve, CamshaftCompared k => k.Valve, ThicknessFound f => f.Valve, ChangeFact c => c.Valve, _ => null };
        return valve is null || sheet.Engine.Valves.Any(v => v.Id == valve) ? null : Unknown(sheet, valve);
    }

    internal static JobProblem Unknown(JobSheet sheet, string valve) =>
        new("valve", $"found \"{valve}\", which is no valve of this engine", $"its valves are {string.Join(", ", sheet.Engine.Valves.Select(v => v.Id))}");
}
