using Shimwright.Domain.Engines;
using Shimwright.Jobs.Guidance;

namespace Shimwright.Jobs.Sheets;

/// <summary>A step of the work that is ticked.</summary>
/// <param name="Name">Its name in facts.</param>
/// <param name="Text">What to do.</param>
/// <param name="Must">Whether the job waits for it.</param>
/// <param name="After">Whether it comes after the valves were changed.</param>
public sealed record FitStep(string Name, string Text, bool Must, bool After);

/// <summary>The steps that are ticked while the plan is carried out, in working order.</summary>
public static class FitSteps
{
    /// <summary>The name of the step that says the timing was checked.</summary>
    public const string Timing = "timing";

    /// <summary>The steps for a job whose plan was accepted.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>The steps; none where no plan was accepted or it changes nothing.</returns>
    public static IReadOnlyList<FitStep> For(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        if (sheet.Plan is not { } plan || !plan.Changes.Any())
        {
            return [];
        }

        Adjuster adjuster = sheet.Engine.Valvetrain.Adjuster;
        bool camshaftsOut = WorkOrder.LiftsCamshafts(adjuster);
        List<FitStep> steps =
        [
            new("isolate", WorkOrder.Isolate, true, false),
            .. camshaftsOut ? plan.Opened.Select(g => new FitStep($"open/{g}", $"Lift the {g}: timing marks noted and photographed, tensioner wound in or out first, caps loosened in steps and kept in order.", true, false)) : [],
            .. camshaftsOut ? plan.Opened.Select(g => new FitStep($"refit/{g}", $"Refit the {g} on its marks: caps down evenly in passes, to the manual's torque and in its order.", true, true)) : [],
            .. camshaftsOut ? [new FitStep(Timing, "Timing checked: every mark on its line with the tensioner released, pins counted between the marks. An engine out of time bends its valves; the starter never finds out.", true, true)] : Array.Empty<FitStep>(),
            new("turned", "Crank turned twice by hand in running direction: no hard stop. If it stops hard, do not force it.", true, true),
            new("clear", "Nothing left inside: every rag, blade, magnet and old shim accounted for.", true, true),
        ];
        return steps;
    }
}
