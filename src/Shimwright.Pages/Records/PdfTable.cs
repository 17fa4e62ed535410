using PdfSharp.Drawing;

namespace Shimwright.Pages.Records;

/// <summary>Lays a table; its head comes again on every sheet. A column is as wide as its longest cell, and gives way where all of them are too wide.</summary>
internal sealed class PdfTable(PdfSheets sheets, RecordTable table)
{
    private const double Between = 8, Pad = 1.5, Size = 8.5, SmallSize = 7, Beside = 3;

    private readonly XFont _plain = new(RecordFonts.Family, Size), _bold = new(RecordFonts.Family, Size, XFontStyleEx.Bold), _small = new(RecordFonts.Family, SmallSize);

    private readonly XPen _thin = new(XColors.LightGray, 0.5);

    public void Lay()
    {
        double[] widths = Widths();
        IReadOnlyList<IReadOnlyList<Piece>>[] lines = [.. table.Lines.Select(l => LinesOf(l, widths))];
        sheets.Need(PdfSheets.LineOf(_small) + Head + (lines.Length > 0 ? HeightOf(lines[0]) : 0));
        sheets.Text(table.Caption, _small);
        LayHead(widths);
        foreach (IReadOnlyList<IReadOnlyList<Piece>> line in lines)
        {
            double height = HeightOf(line);
            if (sheets.Need(height))
            {
                LayHead(widths);
            }

            double x = sheets.Left;
            foreach ((int c, IReadOnlyList<Piece> cell) in line.Index())
            {
                foreach (Piece piece in cell)
                {
                    sheets.Line(piece.Text, piece.Font, x + piece.X, sheets.Y + Pad + piece.Y);
                }

                x += widths[c] + Between;
            }

            sheets.Y += height;
            sheets.Sheet.DrawLine(_thin, sheets.Left, sheets.Y, sheets.Left + sheets.Width, sheets.Y);
        }
    }

    private double Head => PdfSheets.LineOf(_bold) + (2 * Pad);

    private void LayHead(double[] widths)
    {
        double x = sheets.Left;
        foreach ((int c, string column) in table.Columns.Index())
        {
            sheets.Line(column, _bold, x, sheets.Y + Pad);
            x += widths[c] + Between;
        }

        sheets.Y += Head;
        sheets.Sheet.DrawLine(new XPen(XColors.Gray, 0.8), sheets.Left, sheets.Y, sheets.Left + sheets.Width, sheets.Y);
    }

    private static double HeightOf(IReadOnlyList<IReadOnlyList<Piece>> line) => line.Max(cell => cell.Max(p => p.Y + PdfSheets.LineOf(p.Font))) + (2 * Pad);

    private List<IReadOnlyList<Piece>> LinesOf(RecordLine line, double[] widths) =>
        [.. line.Cells.Select((cell, c) => CellOf(cell.Words, cell.Small, c == 0 || (line.Fails && c == line.Cells.Count - 1) ? _bold : _plain, widths[c]))];

    /// <summary>What goes with the words comes beside them where it fits, else below.</summary>
    private List<Piece> CellOf(string words, string small, XFont font, double width)
    {
        double height = PdfSheets.LineOf(font), wide = Wide(words, font);
        if (small.Length > 0 && wide + Beside + Wide(small, _small) <= width)
        {
            return [new(words, font, 0, 0), new(small, _small, wide + Beside, (Size - SmallSize) * 1.07)];
        }

        List<Piece> pieces = [.. sheets.Wrap(words, font, width).Select((l, k) => new Piece(l, font, 0, k * height))];
        return small.Length == 0 ? pieces
            : [.. pieces, .. sheets.Wrap(small, _small, width).Select((l, k) => new Piece(l, _small, 0, (pieces.Count * height) + (k * PdfSheets.LineOf(_small))))];
    }

    private double[] Widths()
    {
        double[] wanted = [.. table.Columns.Select((column, c) => table.Lines.Select(l => WideOf(l.Cells[c], c)).Append(Wide(column, _bold)).Max())];
        double room = sheets.Width - (Between * (wanted.Length - 1));
        // The widest gives way first: a long name of a valve does not squeeze the numbers.
        while (wanted.Sum() > room + 0.01)
        {
            double widest = wanted.Max(), next = wanted.Where(w => w < widest).DefaultIfEmpty(0).Max();
            int count = wanted.Count(w => w >= widest);
            double cut = Math.Min(widest - next, (wanted.Sum() - room) / count);
            wanted = [.. wanted.Select(w => w >= widest ? w - cut : w)];
        }

        return wanted;
    }

    private double WideOf((string Words, string Small) cell, int column) =>
        Wide(cell.Words, column == 0 || column == table.Columns.Count - 1 ? _bold : _plain) + (cell.Small.Length > 0 ? Beside + Wide(cell.Small, _small) : 0);

    private double Wide(string text, XFont font) => text.Length == 0 ? 0 : sheets.Sheet.MeasureString(text, font).Width + 0.5;

    /// <summary>A line of a cell, and where in the cell it is.</summary>
    private sealed record Piece(string Text, XFont Font, double X, double Y);
}
