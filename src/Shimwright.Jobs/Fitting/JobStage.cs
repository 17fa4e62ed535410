using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Jobs.Fitting;

/// <summary>Where a job stands.</summary>
public enum JobStage
{
    /// <summary>Some valve has no reading.</summary>
    Measure,

    /// <summary>Some valve's shim is not known.</summary>
    Shims,

    /// <summary>No plan has been accepted.</summary>
    Plan,

    /// <summary>Something of the plan is not done.</summary>
    Fit,

    /// <summary>Some changed valve has not been read again.</summary>
    Recheck,

    /// <summary>All is done but the closing, or nothing is to be done.</summary>
    Close,

    /// <summary>The job is closed.</summary>
    Closed,
}

/// <summary>Finds where a job stands.</summary>
public static class JobStages
{
    /// <summary>Where a job stands: the first thing that is still to be done.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>The stage.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static JobStage Of(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        if (sheet.Closing is not null)
        {
            return JobStage.Closed;
        }

        if (sheet.Plan is not { } plan)
        {
            // A job file may come with its work done; a plan that was let go leaves the choice open again.
            return !sheet.PlanWasReleased && sheet.ChangedValves.Count > 0 ? AfterTheWork(sheet, sheet.ChangedValves)
                : sheet.Engine.Valves.Any(v => !sheet.IsRead(v.Id)) ? JobStage.Measure
                : NothingToDo.Is(sheet) ? JobStage.Close
                : sheet.Engine.Valvetrain.HasShims && sheet.Engine.Valves.Any(v => sheet.FoundAt(v.Id) is null) ? JobStage.Shims
                : JobStage.Plan;
        }

        string[] changed = [.. plan.Changes.Select(c => c.Valve)];
        return plan.Changes.Any(sheet.IsOwed) || FitSteps.For(sheet).Any(s => s.Must && !sheet.IsDone(s.Name)) ? JobStage.Fit
            : AfterTheWork(sheet, changed);
    }

    private static JobStage AfterTheWork(JobSheet sheet, IEnumerable<string> changed) =>
        changed.Any(v => sheet.LastReading(SheetPart.Recheck, v) is null) ? JobStage.Recheck : JobStage.Close;
}
