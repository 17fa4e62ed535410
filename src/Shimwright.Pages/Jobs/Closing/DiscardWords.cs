using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Pages.Jobs.Closing;

/// <summary>What discarding a job touches, or has touched, a sentence each.</summary>
internal static class DiscardWords
{
    public static IReadOnlyList<string> Of(JobSheet sheet, LengthStyle lengths) => sheet.IsDiscarded ? [.. Drawer(sheet, lengths, "were freed")] :
    [
        sheet.Entries.Count switch { 0 => "It has no entries.", 1 => "Its one entry stays with it.", var n => $"Its {n} entries stay with it." },
        sheet.Closing is null
            ? "It leaves the list of open jobs."
            : "It leaves the engine's past. The next check is worked out again without it. Its record stays with it.",
        .. Drawer(sheet, lengths, "are freed"),
    ];

    private static IEnumerable<string> Drawer(JobSheet sheet, LengthStyle lengths, string freed)
    {
        ShimsPromised[] promised = [.. DrawerUse.PlannedOf(sheet)];
        string free = Shims(promised.Select(p => (p.Thickness, p.By, p.Count - p.Fitted)), lengths);
        string fitted = Shims(promised.Select(p => (p.Thickness, p.By, p.Fitted)), lengths);
        string booked = sheet.Closing is not null && JobTerms.UsesShop(sheet) ? Shims(DrawerUse.Exchanges(sheet).Select(e => e.Taken).OfType<ThicknessRow>().Select(t => (t.Thickness, t.By, 1)), lengths) : "";
        if (free.Length > 0)
        {
            yield return $"Promised shims {freed} for other jobs: {free}.";
        }

        if (fitted.Length > 0)
        {
            yield return $"Shims that are in the engine stay reserved: {fitted}. Where one lies in the drawer again, put the job back and undo its fitting first.";
        }

        if (booked.Length > 0)
        {
            yield return $"Shims that were booked out stay booked out: {booked}. What came out of the engine stays in the drawer.";
        }

        if (free.Length + fitted.Length + booked.Length == 0)
        {
            yield return "It has nothing of the drawer.";
        }
    }

    private static string Shims(IEnumerable<(double Thickness, string By, int Count)> shims, LengthStyle lengths) => string.Join(", ", shims
        .GroupBy(s => (s.Thickness, s.By)).Select(g => (g.Key, Count: g.Sum(s => s.Count))).Where(s => s.Count > 0)
        .Select(s => $"{(s.Count > 1 ? $"{s.Count} of " : "")}{lengths.Shim(s.Key.Thickness)} {lengths.UnitName} ({s.Key.By})"));
}
