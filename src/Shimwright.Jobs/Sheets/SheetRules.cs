using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sections;

namespace Shimwright.Jobs.Sheets;

/// <summary>What may be added to a sheet.</summary>
public static class SheetRules
{
    private const int LongestText = 4000;

    /// <summary>Says what is wrong with a fact that is about to be added.</summary>
    /// <param name="sheet">The sheet as it is.</param>
    /// <param name="fact">The fact.</param>
    /// <returns>The problems; none where the fact may be added.</returns>
    public static IReadOnlyList<JobProblem> ProblemsOf(JobSheet sheet, JobFact fact)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(fact);
        if (sheet.Closing is not null && fact is not (JobReopened or JobNoted or Undone))
        {
            return [new("job", "the job is closed", "open it again before anything is changed on it")];
        }

        return fact switch
        {
            Undone undo => sheet.InForce.Any(e => e.Action == undo.Action)
                ? []
                : [new("undo", "there is nothing of that action left on this job", "it was taken back already; load the page again")],
            LossSuspected loss when SuspectedCause.Of(loss.Cause) is null =>
                [new("cause", $"found \"{loss.Cause}\"", $"allowed is {string.Join(", ", SuspectedCause.All.Select(c => c.Name))}")],
            JobNoted note => TextProblems("text", note.Text, needed: true),
            JobClosed closed => ClosingProblems(sheet, closed),
            PlanReleased when sheet.Plan is null => [new("plan", "no plan was accepted", "there is nothing to let go")],
            PlanAccepted or PlanReleased or JobReopened => [],
            StepTicked tick when FitSteps.For(sheet).All(s => s.Name != tick.Step) =>
                [new("step", $"found \"{tick.Step}\"", $"the steps are {string.Join(", ", FitSteps.For(sheet).Select(s => s.Name))}")],
            StepTicked => [],
            ThicknessFound when !sheet.Engine.Valvetrain.HasShims => [new("thickness", "found a thickness", "an engine with screws has none")],
            ReadingFact { Part: SheetPart.Recheck } when sheet.Plan is null && sheet.Engine.Valves.All(v => sheet.ChangeAt(v.Id) is null) =>
                [new("reading", "nothing was changed yet", "a re-check comes after the work; enter the reading under measure")],
            _ => FileProblems(sheet, fact),
        };
    }

    private static List<JobProblem> ClosingProblems(JobSheet sheet, JobClosed closed)
    {
        List<JobProblem> problems = [.. TextProblems("found", closed.Found), .. TextProblems("notes", closed.Notes), .. TextProblems("by", closed.By)];
        if (!double.IsFinite(closed.Clock) || closed.Clock < 0 || closed.Clock > CheckSection.LatestClock)
        {
            problems.Add(new("clock", $"found {NumberRule.Text(closed.Clock)}", $"allowed is 0 to {NumberRule.Text(CheckSection.LatestClock)}"));
        }
        else if (closed.Clock < sheet.Check.Clock)
        {
            problems.Add(new("clock", $"found {NumberRule.Text(closed.Clock)}", $"the check was made at {NumberRule.Text(sheet.Check.Clock)}; a clock does not run back"));
        }

        return problems;
    }

    private static IReadOnlyList<JobProblem> TextProblems(string name, string? text, bool needed = false) =>
        needed && string.IsNullOrWhiteSpace(text) ? [new(name, "nothing was written", "write something, or leave the page")]
        : text?.Length > LongestText ? [new(name, $"found {text.Length} characters", $"allowed are {LongestText}")]
        : [];

    /// <summary>Everything else has its rule in the job file: the sheet with the fact must still be one.</summary>
    private static IReadOnlyList<JobProblem> FileProblems(JobSheet sheet, JobFact fact)
    {
        if (UnknownValve(sheet, fact) is { } unknown)
        {
            return [unknown];
        }

        return NotFinite(fact) ? [new("value", "found no number", "a finite number is needed")] : JobSheetFile.Read(sheet.With(fact), JobPurpose.Draft).Problems;
    }

    private static JobProblem? UnknownValve(JobSheet sheet, JobFact fact)
    {
        string? valve = fact switch { ReadingFact r => r.Valve, ThicknessFound f => f.Valve, ChangeFact c => c.Valve, _ => null };
        return valve is null || sheet.Engine.Valves.Any(v => v.Id == valve)
            ? null
            : new("valve", $"found \"{valve}\", which is no valve of this engine", $"its valves are {string.Join(", ", sheet.Engine.Valves.Select(v => v.Id))}");
    }

    private static bool NotFinite(JobFact fact) => fact switch
    {
        BladeTried b => !double.IsFinite(b.Blade),
        ClearanceRead c => !double.IsFinite(c.Value) || !double.IsFinite(c.U),
        CheckStated c => !double.IsFinite(c.Clock) || !double.IsFinite(c.TemperatureC),
        RecheckStated r => !double.IsFinite(r.TemperatureC),
        ThicknessFound f => !double.IsFinite(f.Thickness),
        ShimFitted s => !double.IsFinite(s.From.Thickness) || !double.IsFinite(s.To.Thickness),
        ScrewTurned t => !double.IsFinite(t.Turns),
        StockStated s => s.Drawer.Any(d => !double.IsFinite(d.Thickness)) || s.Buy.Any(b => !(double.IsFinite(b.From) && double.IsFinite(b.To) && double.IsFinite(b.Step) && double.IsFinite(b.Price))),
        CostsStated c => !(double.IsFinite(c.Redo) && double.IsFinite(c.Swap) && double.IsFinite(c.MinutesPerCurrency) && double.IsFinite(c.Horizon)) || c.Access.Values.Any(a => !double.IsFinite(a)),
        _ => false,
    };
}
