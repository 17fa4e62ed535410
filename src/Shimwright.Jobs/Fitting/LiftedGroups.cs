using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Jobs.Fitting;

/// <summary>Camshafts that are off while the check still goes on.</summary>
public static class LiftedGroups
{
    /// <summary>The access groups in which a depth was taken last: there no blade can be tried until the camshaft lies there again.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>Their names.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static IReadOnlyList<string> Of(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return
        [
            .. sheet.Engine.AccessGroups.Where(g => sheet.Engine.Under(g)
                .Select(v => sheet.LastReading(SheetPart.Check, v.Id)).OfType<JobEntry>().MaxBy(e => e.Number)?.Fact is DepthTaken),
        ];
    }
}
