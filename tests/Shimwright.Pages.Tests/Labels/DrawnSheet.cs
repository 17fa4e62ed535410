using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Shimwright.Pages.Labels;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;

namespace Shimwright.Pages.Tests.Labels;

/// <summary>A sheet as it was drawn, read back from its file. Lengths in mm from the upper left corner.</summary>
/// <param name="Paper">The page.</param>
/// <param name="Frames">Edges of labels.</param>
/// <param name="Codes">The dark rectangles of each code.</param>
/// <param name="Words">Where each text lies, and what it says.</param>
internal sealed partial record DrawnSheet(LabelBox Paper, IReadOnlyList<LabelBox> Frames, IReadOnlyList<IReadOnlyList<LabelBox>> Codes, IReadOnlyList<(LabelBox Place, string Text)> Words)
{
    private const double MmPerPoint = 25.4 / 72;

    public static DrawnSheet OfSvg(string svg)
    {
        XElement root = XDocument.Parse(svg).Root!;
        Assert.Equal(root.Attribute("viewBox")!.Value, $"0 0 {root.Attribute("width")!.Value.Replace("mm", "", StringComparison.Ordinal)} {root.Attribute("height")!.Value.Replace("mm", "", StringComparison.Ordinal)}");
        double[] view = Numbers(root.Attribute("viewBox")!.Value);
        return new(
            new(view[0], view[1], view[2], view[3]),
            [.. Named("rect").Where(e => e.Attribute("class")?.Value == "frame").Select(e => new LabelBox(Of(e, "x"), Of(e, "y"), Of(e, "width"), Of(e, "height")))],
            [.. Named("path").Select(CodeOf)],
            [.. Named("text").Select(e => (new LabelBox(Of(e, "x"), Of(e, "y") - Of(e, "font-size"), Of(e, "textLength"), Of(e, "font-size") * 1.24), e.Value))]);

        IEnumerable<XElement> Named(string name) => root.Elements().Where(e => e.Name.LocalName == name);
    }

    public static IReadOnlyList<DrawnSheet> OfPdf(byte[] file)
    {
        using var pdf = PdfDocument.Open(file);
        return [.. pdf.GetPages().Select(OfPage)];
    }

    private static DrawnSheet OfPage(Page page)
    {
        LabelBox Of(PdfRectangle r) => new(r.Left * MmPerPoint, (page.Height - r.Top) * MmPerPoint, r.Width * MmPerPoint, r.Height * MmPerPoint);
        return new(
            new(0, 0, page.Width * MmPerPoint, page.Height * MmPerPoint),
            [.. page.Paths.Where(p => p.IsStroked).Select(p => Of(p.GetBoundingRectangle()!.Value))],
            [.. page.Paths.Where(p => p.IsFilled).Select(p => p.Select(s => Of(s.GetBoundingRectangle()!.Value)).ToArray())],
            [.. page.Letters.Where(l => l.Value != " ").Select(l => (Of(l.BoundingBox), l.Value))]);
    }

    private static LabelBox[] CodeOf(XElement path)
    {
        double[] place = Numbers(path.Attribute("transform")!.Value);
        string drawn = path.Attribute("d")!.Value;
        Assert.Equal(drawn, string.Concat(Run().Matches(drawn).Select(m => m.Value)));
        return [.. Run().Matches(drawn).Select(m => Numbers(m.Value)).Select(n => new LabelBox(place[0] + (n[0] * place[2]), place[1] + (n[1] * place[2]), n[2] * place[2], place[2]))];
    }

    private static double Of(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);

    private static double[] Numbers(string text) => [.. Number().Matches(text).Select(m => double.Parse(m.ValueSpan, CultureInfo.InvariantCulture))];

    [GeneratedRegex(@"-?\d+(\.\d+)?")]
    private static partial Regex Number();

    [GeneratedRegex(@"M(\d+) (\d+)h(\d+)v1h-\d+z")]
    private static partial Regex Run();
}
