using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Pages.Jobs.Closing;

/// <summary>One valve before closing.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Row">Its line of the verdict.</param>
/// <param name="Changed">Whether it was changed.</param>
/// <param name="ReadAgain">Whether it was felt after the work.</param>
public sealed record CloseValve(Valve Valve, VerdictRow Row, bool Changed, bool ReadAgain)
{
    /// <summary>Whether it passes.</summary>
    public bool Passes => Row.Passes;
}

/// <summary>What stands before a job is closed: the verdict, and what is still undone.</summary>
public sealed class CloseView
{
    private CloseView(JobSheet sheet, VerdictResult? verdict)
    {
        Verdict = verdict;
        IsNothingToDo = NothingToDo.Is(sheet);
        Valves = verdict is null ? [] :
        [
            .. sheet.Engine.Valves.Select((v, i) => new CloseValve(
                v, verdict.Valves[i], sheet.ChangeAt(v.Id) is not null, sheet.LastReading(SheetPart.Recheck, v.Id) is not null)),
        ];
        Fails = [.. Valves.Where(v => !v.Passes).Select(v => v.Valve.Id)];
        Undone = [.. UndoneOf(sheet)];
        HasChanges = sheet.Engine.Valves.Any(v => sheet.ChangeAt(v.Id) is not null);
        TimingIsOwed = FitSteps.TimingIsOwed(sheet);
    }

    /// <summary>The verdict, or null where something is missing for one.</summary>
    public VerdictResult? Verdict { get; }

    /// <summary>The valves with their verdicts.</summary>
    public IReadOnlyList<CloseValve> Valves { get; }

    /// <summary>The valves that fail.</summary>
    public IReadOnlyList<string> Fails { get; }

    /// <summary>What is still undone, each in a sentence with where to do it.</summary>
    public IReadOnlyList<(string Text, string Page)> Undone { get; }

    /// <summary>Whether anything was changed, so that a second round makes sense.</summary>
    public bool HasChanges { get; }

    /// <summary>Whether the timing has to be ticked before the job can be closed.</summary>
    public bool TimingIsOwed { get; }

    /// <summary>Whether the check found every valve in band, so that the job can be closed as it is.</summary>
    public bool IsNothingToDo { get; }

    /// <summary>Whether closing has to be confirmed, because something fails or is undone.</summary>
    public bool MustConfirm => Fails.Count > 0 || Undone.Count > 0 || Verdict is null;

    /// <summary>Looks at a job.</summary>
    /// <param name="sheet">The job.</param>
    /// <param name="verdict">Its verdict, or null.</param>
    /// <returns>What stands before it is closed.</returns>
    public static CloseView Of(JobSheet sheet, VerdictResult? verdict)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return new(sheet, verdict);
    }

    private static IEnumerable<(string Text, string Page)> UndoneOf(JobSheet sheet)
    {
        string[] unread = [.. sheet.Engine.Valves.Select(v => v.Id).Where(v => !sheet.IsRead(v))];
        if (unread.Length > 0)
        {
            yield return ($"No reading at {string.Join(", ", unread)}", "measure");
        }

        if (NothingToDo.Is(sheet))
        {
            yield break;
        }

        if (sheet.Plan is null && sheet.Engine.Valves.All(v => sheet.ChangeAt(v.Id) is null))
        {
            yield return ("No plan was accepted", "plan");
            yield break;
        }

        IReadOnlyList<string> changed = FitSteps.ChangedBy(sheet);
        string[] notFitted = [.. sheet.Plan?.Changes.Where(sheet.IsOwed).Select(r => r.Valve) ?? []];
        if (notFitted.Length > 0)
        {
            yield return ($"Not changed as planned: {string.Join(", ", notFitted)}", "fit");
        }

        int steps = FitSteps.For(sheet).Count(s => s.Must && !sheet.IsDone(s.Name));
        if (steps > 0)
        {
            yield return (steps == 1 ? "One step of the work is not ticked" : $"{steps} steps of the work are not ticked", "fit");
        }

        string[] notFelt = [.. changed.Where(v => sheet.ChangeAt(v) is not null && sheet.LastReading(SheetPart.Recheck, v) is null)];
        if (notFelt.Length > 0)
        {
            yield return ($"Changed and not felt again: {string.Join(", ", notFelt)}", "recheck");
        }
    }
}
