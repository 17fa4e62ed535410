using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Shimwright.Pages.Records;

namespace Shimwright.Pages.Labels;

/// <summary>Sheets of labels as a PDF whose pages are as large as the sheets.</summary>
internal static class LabelPdf
{
    private const double PointsPerMm = 72 / 25.4;

    public static byte[] Write(IReadOnlyList<LabelSheet> sheets, string title, DateTime now)
    {
        RecordFonts.Use();
        using PdfDocument document = new();
        document.Info.Title = title;
        document.Info.Creator = "Shimwright";
        document.Info.CreationDate = now;
        // Programs that heed it print it as large as it is.
        document.ViewerPreferences.Elements.SetName("/PrintScaling", "/None");
        foreach (LabelSheet sheet in sheets)
        {
            PdfPage page = document.AddPage();
            (page.Width, page.Height) = (XUnitPt.FromMillimeter(sheet.Layout.Sheet.Width), XUnitPt.FromMillimeter(sheet.Layout.Sheet.Height));
            using var paper = XGraphics.FromPdfPage(page);
            foreach (PlacedLabel label in sheet.Labels)
            {
                Draw(paper, label, sheet.HasFrame);
            }
        }

        using MemoryStream bytes = new();
        document.Save(bytes, closeStream: false);
        return bytes.ToArray();
    }

    private static void Draw(XGraphics paper, PlacedLabel label, bool hasFrame)
    {
        if (hasFrame)
        {
            paper.DrawRectangle(new XPen(XColors.Gray, 0.2 * PointsPerMm), Points(label.Box.X, label.Box.Y, label.Box.Width, label.Box.Height));
        }

        if (label.Code is { } code)
        {
            // One path: modules that touch leave no gap between them.
            XGraphicsPath dark = new() { FillMode = XFillMode.Winding };
            foreach ((int x, int y, int length) in code.Code.Runs())
            {
                dark.AddRectangle(Points(code.X + (x * code.Module), code.Y + (y * code.Module), length * code.Module, code.Module));
            }

            paper.DrawPath(XBrushes.Black, dark);
        }

        foreach (PlacedLine line in label.Lines)
        {
            XFont font = new(RecordFonts.Family, line.Size * PointsPerMm, line.IsBold ? XFontStyleEx.Bold : XFontStyleEx.Regular);
            paper.DrawString(line.Text, font, XBrushes.Black, new XPoint(line.X * PointsPerMm, line.Baseline * PointsPerMm), XStringFormats.BaseLineLeft);
        }
    }

    private static XRect Points(double x, double y, double width, double height) => new(x * PointsPerMm, y * PointsPerMm, width * PointsPerMm, height * PointsPerMm);
}
