using System.Globalization;
using PdfSharp;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Shimwright.Pages.Records;

/// <summary>Sheets of A4 on which text is laid from the top to the bottom; what does not fit any more goes on the next sheet. Lengths in points.</summary>
internal sealed class PdfSheets : IDisposable
{
    public const double Margin = 36, Foot = 30;

    private readonly PdfDocument _document = new();
    private readonly List<XGraphics> _sheets = [];

    public PdfSheets(string title, DateTime now)
    {
        RecordFonts.Use();
        _document.Info.Title = title;
        _document.Info.Creator = "Shimwright";
        _document.Info.CreationDate = now;
        Turn();
    }

    /// <summary>Where the next line begins, from the top of the sheet.</summary>
    public double Y { get; set; }

    public double Width { get; private set; }

    public double Height { get; private set; }

    public double Left { get; } = Margin;

    public XGraphics Sheet => _sheets[^1];

    /// <summary>How much of the sheet is left.</summary>
    public double Room => Height - Margin - Foot - Y;

    /// <summary>Takes the next sheet where so much does not fit on this one.</summary>
    /// <returns>Whether it did.</returns>
    public bool Need(double height)
    {
        if (height <= Room || Y <= Margin)
        {
            return false;
        }

        Turn();
        return true;
    }

    /// <summary>The lines into which text falls in a column; a word that is wider than it is broken.</summary>
    public IReadOnlyList<string> Wrap(string text, XFont font, double width)
    {
        List<string> lines = [];
        foreach (string paragraph in text.Split('\n'))
        {
            string line = "";
            foreach (string word in paragraph.Split(' '))
            {
                string longer = line.Length == 0 ? word : $"{line} {word}";
                if (Fits(longer))
                {
                    line = longer;
                    continue;
                }

                if (line.Length > 0)
                {
                    lines.Add(line);
                }

                line = word;
                while (!Fits(line))
                {
                    int count = FirstThatFits(line);
                    lines.Add(line[..count]);
                    line = line[count..];
                }
            }

            lines.Add(line);
        }

        return lines;

        bool Fits(string said) => said.Length <= 1 || Sheet.MeasureString(said, font).Width <= width;

        int FirstThatFits(string said)
        {
            int[] starts = StringInfo.ParseCombiningCharacters(said);
            int count = starts.Length - 1;
            while (count > 1 && !Fits(said[..starts[count]]))
            {
                count--;
            }

            return count < 1 ? said.Length : starts[count];
        }
    }

    /// <summary>Lays text, sheet after sheet.</summary>
    public void Text(string text, XFont font, double indent = 0)
    {
        double height = LineOf(font);
        foreach (string line in Wrap(text, font, Width - indent))
        {
            Need(height);
            Line(line, font, Left + indent, Y);
            Y += height;
        }
    }

    /// <summary>One line, its top at a height.</summary>
    public void Line(string text, XFont font, double x, double y) => Sheet.DrawString(text, font, XBrushes.Black, new XPoint(x, y), XStringFormats.TopLeft);

    public static double LineOf(XFont font) => font.Size * 1.3;

    /// <summary>The document, with a foot on every sheet.</summary>
    public byte[] ToBytes(string foot)
    {
        XFont font = new(RecordFonts.Family, 7.5);
        foreach ((int k, XGraphics sheet) in _sheets.Index())
        {
            string page = string.Create(CultureInfo.InvariantCulture, $"Page {k + 1} of {_sheets.Count}");
            double wide = sheet.MeasureString(page, font).Width, y = Height - Foot - 4;
            sheet.DrawString(page, font, XBrushes.Black, new XPoint(Left + Width - wide, y), XStringFormats.TopLeft);
            sheet.DrawString(Wrap(foot, font, Width - wide - 20)[0], font, XBrushes.Black, new XPoint(Left, y), XStringFormats.TopLeft);
        }

        Dispose();
        using MemoryStream bytes = new();
        _document.Save(bytes, closeStream: false);
        return bytes.ToArray();
    }

    public void Dispose()
    {
        foreach (XGraphics sheet in _sheets)
        {
            sheet.Dispose();
        }

        _sheets.Clear();
    }

    private void Turn()
    {
        PdfPage page = _document.AddPage();
        page.Size = PageSize.A4;
        (Width, Height, Y) = (page.Width.Point - (2 * Margin), page.Height.Point, Margin);
        _sheets.Add(XGraphics.FromPdfPage(page));
    }
}
