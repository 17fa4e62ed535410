using System.Globalization;
using System.Net;
using System.Text;

namespace Shimwright.Pages.Labels;

/// <summary>A sheet as a picture in its own size.</summary>
internal static class LabelSvg
{
    public static string Write(LabelSheet sheet)
    {
        LabelBox paper = sheet.Layout.Sheet;
        StringBuilder svg = new();
        svg.Append(CultureInfo.InvariantCulture, $"""<svg xmlns="http://www.w3.org/2000/svg" width="{paper.Width:0.###}mm" height="{paper.Height:0.###}mm" viewBox="0 0 {paper.Width:0.###} {paper.Height:0.###}" font-family="Open Sans, Arial, sans-serif">""");
        svg.Append("""<rect width="100%" height="100%" fill="#fff"/>""");
        foreach (PlacedLabel label in sheet.Labels)
        {
            if (sheet.HasFrame)
            {
                svg.Append(CultureInfo.InvariantCulture, $"""<rect class="frame" x="{label.Box.X:0.###}" y="{label.Box.Y:0.###}" width="{label.Box.Width:0.###}" height="{label.Box.Height:0.###}" fill="none" stroke="#666" stroke-width="0.2"/>""");
            }

            if (label.Code is { } code)
            {
                svg.Append(CultureInfo.InvariantCulture, $"""<path class="code" transform="translate({code.X:0.####} {code.Y:0.####}) scale({code.Module:0.######})" d="{code.Code.Path()}" fill="#000" shape-rendering="crispEdges"/>""");
            }

            foreach (PlacedLine line in label.Lines)
            {
                // Letters of another width than those that were measured are set as wide as these.
                svg.Append(CultureInfo.InvariantCulture, $"""<text x="{line.X:0.###}" y="{line.Baseline:0.###}" font-size="{line.Size:0.###}" font-weight="{(line.IsBold ? 700 : 400)}" textLength="{line.Width:0.###}" lengthAdjust="spacingAndGlyphs">{WebUtility.HtmlEncode(line.Text)}</text>""");
            }
        }

        return svg.Append("</svg>\n").ToString();
    }
}
