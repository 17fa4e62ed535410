using System.Runtime.CompilerServices;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Jobs.Fitting;

/// <summary>A check that found nothing to do: every valve was read, and each is in band with the chance that the bench asks for.</summary>
public static class NothingToDo
{
    /// <summary>A sheet never changes: what was found of it once holds.</summary>
    private static readonly ConditionalWeakTable<JobSheet, StrongBox<bool>> Known = [];

    /// <summary>Whether a job can be closed without shims and without a plan.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Whether it can; not where a plan was accepted or something was changed.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static bool Is(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return sheet.Plan is null && sheet.ChangedValves.Count == 0 && sheet.Engine.Valves.All(v => sheet.IsRead(v.Id))
            && Known.GetValue(sheet, s => new(JobSheetFile.Read(s, JobPurpose.Draft).Job is { } job && VerdictResult.Of(job).Pass)).Value;
    }
}
