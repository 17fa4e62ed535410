using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Jobs.Fitting;

/// <summary>A step of the work that is ticked.</summary>
/// <param name="Name">Its name in facts.</param>
/// <param name="Text">What to do.</param>
/// <param name="Must">Whether the job waits for it.</param>
/// <param name="After">Whether it comes after the valves were changed.</param>
public sealed record FitStep(string Name, string Text, bool Must, bool After);

/// <summary>
/// The steps that are ticked while the plan is carried out, in working order. Common practice of the trade, as in
/// <see cref="WorkOrder"/>; the maker's manual for the engine comes first.
/// </summary>
public static class FitSteps
{
    /// <summary>The name of the step that says the timing was checked.</summary>
    public const string Timing = "timing";

    /// <summary>What the name of a step that opens a group begins with.</summary>
    public const string Open = "open/";

    /// <summary>What the name of a step that closes a group for good begins with.</summary>
    public const string Refit = "refit/";

    /// <summary>The steps for a job whose plan was accepted; changes beyond it open their groups too.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>The steps; none where no plan was accepted, as on a job that was taken in with its work done, or nothing is changed.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static IReadOnlyList<FitStep> For(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        if (sheet.Plan is null || ChangedBy(sheet).Count == 0)
        {
            return [];
        }

        string[] opened = [.. OpenedBy(sheet)];
        bool camshaftsOut = opened.Length > 0 && WorkOrder.LiftsCamshafts(sheet.Engine.Valvetrain.Adjuster);
        return
        [
            new("isolate", WorkOrder.Isolate, true, false),
            new("covered", WorkOrder.NothingFallsIn, true, false),
            .. opened.Select(g => new FitStep(Open + g, camshaftsOut ? Lift(g) : $"Open the {g}.", true, false)),
            .. opened.Select(g => new FitStep(Refit + g, camshaftsOut ? LayDown(g) : $"Close the {g} when every valve under it is set.", true, true)),
            .. camshaftsOut ? [new FitStep(Timing, TimingText, true, true)] : Array.Empty<FitStep>(),
            new("turned", $"{TurnedText}{(camshaftsOut ? " See that the marks come back to their lines." : "")} {WorkOrder.WhileTurning}", true, true),
            new("clear", "Account for every rag, blade, magnet and old shim. Leave nothing inside.", true, true),
        ];
    }

    /// <summary>The valves that the plan changes or that were changed without it, in the engine's order.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Their ids.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static IReadOnlyList<string> ChangedBy(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        HashSet<string> planned = [.. sheet.Plan?.Changes.Select(c => c.Valve) ?? []];
        return [.. sheet.Engine.Valves.Select(v => v.Id).Where(v => planned.Contains(v) || sheet.ChangeAt(v) is not null)];
    }

    /// <summary>Whether something was opened or changed after which the timing has to be looked at, and that was not ticked.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Whether the timing is still owed.</returns>
    public static bool TimingIsOwed(JobSheet sheet)
    {
        IReadOnlyList<FitStep> steps = For(sheet);
        return steps.Any(s => s.Name == Timing) && !sheet.IsDone(Timing)
            && (ChangedBy(sheet).Any(v => sheet.ChangeAt(v) is not null)
                || steps.Any(s => s.Name.StartsWith(Open, StringComparison.Ordinal) && sheet.IsDone(s.Name)));
    }

    private const string TimingText =
        "Check the timing: every mark on its line with the tensioner released. Count the pins between the marks. "
        + "An engine out of time can bend its valves: Until the marks are right, turn it by hand only, never with the starter.";

    private const string TurnedText =
        "Turn the crank twice by hand in running direction. If it stops hard, go back and do not force it. Never use the starter to find out.";

    private static string Lift(string group) =>
        $"Lift the {group}. Turn the crank to the manual's timing position before the first cap is loosened. Note and photograph the timing marks, and wind in or take out the tensioner. Loosen the caps in steps, evenly, keep them in order, and tie the chain up. {WorkOrder.WhileTurning}";

    private static string LayDown(string group) =>
        $"Refit the {group} on its marks. Put the caps down evenly, in passes, to the manual's torque and in its order. Remove the locking pins from split gears, and release the tensioner last.";

    private static IEnumerable<string> OpenedBy(JobSheet sheet)
    {
        HashSet<string> changed = [.. sheet.Engine.Valves.Where(v => sheet.ChangeAt(v.Id) is not null).Select(v => v.Access)];
        return [.. JobTerms.Groups(sheet).Where(g => changed.Contains(g) || (sheet.Plan!.Changes.Any() && sheet.Plan.Opened.Contains(g)))];
    }
}
