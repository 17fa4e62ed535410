using PdfSharp.Drawing;
using Shimwright.Bench.Photos;

namespace Shimwright.Pages.Records;

/// <summary>Lays a record on sheets of A4, part by part.</summary>
internal sealed class RecordPdf(PdfSheets sheets)
{
    private const double Gap = 5, LogoHeight = 48, LogoWidth = 150, SmallSize = 7.5, PhotoHeight = 190, SignatureHeight = 52;

    private readonly XFont _plain = new(RecordFonts.Family, 9), _bold = new(RecordFonts.Family, 9, XFontStyleEx.Bold), _small = new(RecordFonts.Family, SmallSize),
        _title = new(RecordFonts.Family, 15, XFontStyleEx.Bold), _head = new(RecordFonts.Family, 11, XFontStyleEx.Bold);

    private readonly XPen _thin = new(XColors.Gray, 0.5);

    /// <summary>A record as a PDF.</summary>
    /// <param name="paper">The record, its pictures with it.</param>
    /// <param name="now">When it is made.</param>
    public static byte[] Write(RecordPaper paper, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(paper);
        using PdfSheets sheets = new(paper.Name, now);
        RecordPdf pdf = new(sheets);
        foreach ((int k, RecordPart part) in paper.Parts.Index())
        {
            pdf.Lay(part, k + 1 < paper.Parts.Count ? paper.Parts[k + 1] : null);
        }

        return sheets.ToBytes(paper.Name);
    }

    private void Lay(RecordPart part, RecordPart? next)
    {
        switch (part)
        {
            case RecordHead head:
                LayHead(head);
                break;
            case RecordTitle title:
                sheets.Text(title.Text, _title);
                break;
            case RecordSummary summary:
                sheets.Text(summary.Text, _bold);
                sheets.Y += Gap;
                break;
            case RecordHeading heading:
                // A heading does not end a sheet.
                sheets.Need(PdfSheets.LineOf(_head) + (next is RecordPhotos ? PhotoHeight + (4 * Gap) : 0) + (3 * PdfSheets.LineOf(_plain)));
                sheets.Text(heading.Text, _head);
                break;
            case RecordText text:
                sheets.Text(text.Text, _plain);
                sheets.Y += Gap;
                break;
            case RecordFacts facts:
                LayFacts(facts);
                break;
            case RecordList list:
                LayList(list);
                break;
            case RecordTable table:
                new PdfTable(sheets, table).Lay();
                sheets.Y += 2 * Gap;
                break;
            case RecordPhotos photos:
                LayPhotos(photos);
                break;
            case RecordSignatures signatures:
                LaySignatures(signatures);
                break;
        }
    }

    private void LayHead(RecordHead head)
    {
        double top = sheets.Y, x = sheets.Left;
        if (head.Logo?.Kept is { } logo)
        {
            XRect place = Draw(logo, x, top, LogoWidth, LogoHeight);
            x += place.Width + 12;
        }

        double width = sheets.Left + sheets.Width - x;
        foreach ((string line, XFont font) in sheets.Wrap(head.Name, _head, width).Select(l => (l, _head)).Concat(head.Lines.SelectMany(l => sheets.Wrap(l, _plain, width)).Select(l => (l, _plain))))
        {
            sheets.Line(line, font, x, sheets.Y);
            sheets.Y += PdfSheets.LineOf(font);
        }

        sheets.Y = Math.Max(sheets.Y, head.Logo is null ? 0 : top + LogoHeight) + Gap;
        sheets.Sheet.DrawLine(_thin, sheets.Left, sheets.Y, sheets.Left + sheets.Width, sheets.Y);
        sheets.Y += 2 * Gap;
    }

    private void LayFacts(RecordFacts facts)
    {
        double column = facts.Facts.Select(f => sheets.Sheet.MeasureString(f.Name, _plain).Width).DefaultIfEmpty().Max() + 12, height = PdfSheets.LineOf(_plain);
        foreach ((string name, string words) in facts.Facts)
        {
            foreach ((int k, string line) in sheets.Wrap(words, _plain, sheets.Width - column).Index())
            {
                sheets.Need(height);
                if (k == 0)
                {
                    sheets.Line(name, _plain, sheets.Left, sheets.Y);
                }

                sheets.Line(line, _plain, sheets.Left + column, sheets.Y);
                sheets.Y += height;
            }
        }

        sheets.Y += Gap;
    }

    private void LayList(RecordList list)
    {
        foreach (string item in list.Items)
        {
            sheets.Need(PdfSheets.LineOf(_plain));
            sheets.Line("\u2022", _plain, sheets.Left, sheets.Y);
            sheets.Text(item, _plain, indent: 10);
        }

        sheets.Y += Gap;
    }

    private void LayPhotos(RecordPhotos photos)
    {
        double width = (sheets.Width - 12) / 2;
        foreach (RecordPhoto[] pair in photos.Photos.Where(p => p.Picture.Kept is not null).Chunk(2))
        {
            IReadOnlyList<string>[] words = [.. pair.Select(p => sheets.Wrap(p.Words, _small, width))];
            double below = words.Max(w => w.Count) * PdfSheets.LineOf(_small);
            sheets.Need(PhotoHeight + below + Gap);
            double tallest = 0;
            foreach ((int k, RecordPhoto photo) in pair.Index())
            {
                double x = sheets.Left + (k * (width + 12));
                tallest = Math.Max(tallest, Draw(photo.Picture.Kept!, x, sheets.Y, width, PhotoHeight).Height);
            }

            foreach ((int k, IReadOnlyList<string> lines) in words.Index())
            {
                foreach ((int n, string line) in lines.Index())
                {
                    sheets.Line(line, _small, sheets.Left + (k * (width + 12)), sheets.Y + tallest + 2 + (n * PdfSheets.LineOf(_small)));
                }
            }

            sheets.Y += tallest + below + (2 * Gap);
        }
    }

    private void LaySignatures(RecordSignatures signatures)
    {
        sheets.Need(SignatureHeight);
        double width = (sheets.Width - 24) / signatures.Who.Count, y = sheets.Y + SignatureHeight - 16;
        foreach ((int k, string who) in signatures.Who.Index())
        {
            double x = sheets.Left + (k * (width + 24));
            sheets.Sheet.DrawLine(_thin, x, y, x + width, y);
            sheets.Line(who, _small, x, y + 2);
        }

        sheets.Y += SignatureHeight;
    }

    /// <summary>A picture within a place, its shape kept.</summary>
    private XRect Draw(Picture picture, double x, double y, double width, double height)
    {
        using MemoryStream bytes = new(picture.Content);
        using var image = XImage.FromStream(bytes);
        double scale = Math.Min(width / picture.Width, height / picture.Height);
        XRect place = new(x, y, picture.Width * scale, picture.Height * scale);
        sheets.Sheet.DrawImage(image, place);
        return place;
    }
}
