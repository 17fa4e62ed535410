using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Testing.Staged;

/// <summary>The facts by which a person would bring a job from the readings of its file to a stage.</summary>
internal static class StagedWork
{
    /// <summary>What the facts of every stage up to this one are, in order.</summary>
    public static IReadOnlyList<JobFact> UpTo(JobStage stage, ParsedSetup file)
    {
        JobSetup setup = file.Setup ?? throw new ArgumentException($"No job file: {string.Join("; ", file.Problems)}", nameof(file));
        string last = setup.Card.Engine.Valves[^1].Id;
        List<JobFact> facts = [.. file.Facts.Where(f => f is ReadingFact { Part: SheetPart.Check } r && (stage > JobStage.Measure || r.Valve != last))];
        foreach ((JobStage after, Func<JobSheet, IEnumerable<JobFact>> work) in Steps(file))
        {
            if (stage > after)
            {
                facts.AddRange(work(SheetOf(setup, facts)));
            }
        }

        return facts;
    }

    /// <summary>Up to shims that are in and felt with their camshafts laid down dry: the first that was changed is tight, the others are right.</summary>
    public static IReadOnlyList<JobFact> UpToADryFit(ParsedSetup file)
    {
        string[] after = [.. FitSteps.For(SheetOf(file.Setup!, [.. UpTo(JobStage.Fit, file)])).Where(s => s.After).Select(s => s.Name)];
        JobFact[] facts = [.. UpTo(JobStage.Recheck, file).Where(f => f is not StepTicked { Step: var step } || !after.Contains(step))];
        ShimFitted[] fitted = [.. facts.OfType<ShimFitted>()];
        return
        [
            .. facts,
            .. fitted.SelectMany((f, i) => file.Setup!.Card.Engine.Valves.Where(v => v.Id == f.Valve)
                .Select(v => new ClearanceRead(SheetPart.DryFit, v.Id, i == 0 ? v.Band.Low - 0.04 : v.Band.Middle, 0.005))),
        ];
    }

    private static IEnumerable<(JobStage Stage, Func<JobSheet, IEnumerable<JobFact>> Work)> Steps(ParsedSetup file) =>
    [
        (JobStage.Shims, _ => file.Facts.OfType<ThicknessFound>()),
        (JobStage.Plan, sheet => [PlanFor(sheet)]),
        (JobStage.Fit, WorkOn),
        (JobStage.Recheck, FeltAgain),
        (JobStage.Close, sheet => [new JobClosed(sheet.Check.Clock + 1, "Worn by running at full load.", "Look again at the next service.", "The bench")]),
    ];

    private static PlanAccepted PlanFor(JobSheet sheet)
    {
        PlanResult plan = PlanResult.Of(JobSheetFile.Read(sheet, JobPurpose.Plan).Job!);
        return new(plan.Opened, plan.ChanceAll, plan.Minutes, plan.Bought, plan.Valves, plan.Stranded);
    }

    private static IEnumerable<JobFact> WorkOn(JobSheet sheet) =>
    [
        .. sheet.Plan!.Changes.Select(r => r.To is { } to
            ? (JobFact)new ShimFitted(r.Valve, r.From!, new ThicknessRow(to.Thickness, to.By))
            : new ScrewTurned(r.Valve, r.Turns ?? 0)),
        .. FitSteps.For(sheet).Select(s => new StepTicked(s.Name, true)),
    ];

    private static IEnumerable<JobFact> FeltAgain(JobSheet sheet) =>
        sheet.Plan!.Changes.Select(r => new ClearanceRead(SheetPart.Recheck, r.Valve, r.After?.Mean ?? 0.15, 0.01));

    private static JobSheet SheetOf(JobSetup setup, List<JobFact> facts) =>
        JobSheet.Of(setup, [.. facts.Select((f, i) => new JobEntry(i + 1, Guid.Empty, "", default, f))]);
}
