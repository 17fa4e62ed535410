using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Pages.Jobs.Readings;

/// <summary>A reading that was taken back, with the entry that took it back.</summary>
internal sealed record TakenBack(JobEntry Undoing, JobEntry Reading)
{
    /// <summary>The last reading taken back at a valve after which nothing else was read or changed there; null where there is none.</summary>
    public static TakenBack? LastAt(JobSheet sheet, SheetPart part, string valve)
    {
        int newest = sheet.InForce.LastOrDefault(e => IsOf(e, part, valve) || (e.Fact is ChangeFact change && change.Valve == valve))?.Number ?? 0;
        return sheet.Undoings.Reverse()
            .Select(u => sheet.Entries.LastOrDefault(e => ((Undone)u.Fact).Means(e) && IsOf(e, part, valve)) is { } reading ? new TakenBack(u, reading) : null)
            .FirstOrDefault(t => t is not null && t.Undoing.Number > newest);
    }

    private static bool IsOf(JobEntry entry, SheetPart part, string valve) =>
        entry.Fact is ReadingFact reading && reading.Part == part && reading.Valve == valve;
}
