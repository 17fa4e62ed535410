using System.Globalization;
using System.Text;
using Shimwright.Bench;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Labels;

/// <summary>Sheets of labels as files.</summary>
internal static class LabelFiles
{
    /// <summary>The sheets as a PDF.</summary>
    /// <param name="bench">The bench.</param>
    /// <param name="query">What is to be printed.</param>
    /// <param name="home">What stands before a page's path in a code.</param>
    /// <param name="time">The clock.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The file; null where there is nothing to print.</returns>
    public static async Task<byte[]?> PdfAsync(IBench bench, LabelQuery query, string home, TimeProvider time, CancellationToken cancel)
    {
        LabelDesk desk = new(bench, home, cancel);
        IReadOnlyList<Label> labels = await desk.OfAsync(query.Kind, await desk.ChosenAsync(query, await desk.ChoicesAsync(query.Kind)));
        var local = LocalTimes.Of((await bench.Settings.CurrentAsync(cancel)).Settings, time);
        return labels.Count == 0 ? null : LabelPdf.Write(LabelSheet.Lay(labels, query), query.Kind == LabelKind.Drawer ? "Drawer labels" : "Engine labels", local.Now);
    }

    /// <summary>One sheet as a picture.</summary>
    /// <param name="bench">The bench.</param>
    /// <param name="query">What is to be printed.</param>
    /// <param name="sheet">Which sheet, from 1.</param>
    /// <param name="home">What stands before a page's path in a code.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The picture; null where there is no such sheet.</returns>
    public static async Task<byte[]?> SvgAsync(IBench bench, LabelQuery query, int sheet, string home, CancellationToken cancel)
    {
        LabelDesk desk = new(bench, home, cancel);
        (IReadOnlyList<LabelChoice> chosen, LabelQuery alone) = query.OnSheet(await desk.ChosenAsync(query, await desk.ChoicesAsync(query.Kind)), sheet);
        IReadOnlyList<Label> labels = await desk.OfAsync(query.Kind, chosen);
        return labels.Count == 0 ? null : Encoding.UTF8.GetBytes(LabelSvg.Write(LabelSheet.Lay(labels, alone).Single()));
    }

    /// <summary>Which sheet is asked for.</summary>
    /// <param name="text">What the address says.</param>
    /// <param name="problems">Where what is wrong is put.</param>
    /// <returns>The sheet, from 1.</returns>
    public static int SheetOf(string? text, ICollection<JobProblem> problems)
    {
        if (text is null)
        {
            return 1;
        }

        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int sheet) && sheet is >= 1 and <= LabelDesk.Most)
        {
            return sheet;
        }

        problems.Add(new("sheet", $"found \"{text}\"", string.Create(CultureInfo.InvariantCulture, $"enter a whole number from 1 to {LabelDesk.Most}")));
        return 1;
    }
}
