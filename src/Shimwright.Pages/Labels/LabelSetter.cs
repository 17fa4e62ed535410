using System.Globalization;
using PdfSharp.Drawing;
using Shimwright.Pages.Records;

namespace Shimwright.Pages.Labels;

/// <summary>Lays code and lines into a label. Sheets for the screen and for the printer are drawn from the same places.</summary>
internal sealed class LabelSetter : IDisposable
{
    /// <summary>The smallest module that phones read for certain off a printed label, mm (common practice, no source).</summary>
    private const double LeastModule = 0.33;

    /// <summary>A larger module reads no better and takes the room of the words, mm.</summary>
    private const double MostModule = 0.6;

    /// <summary>The smallest type that is read at arm's length, and the largest of a plain line, mm (common practice, no source).</summary>
    private const double LeastType = 1.6, MostType = 4.2;

    /// <summary>White along the edges: sheets are cut and fed with a millimetre of play (common practice, no source).</summary>
    private const double Edge = 1.5;

    /// <summary>What the words get beside or below a code where it is short, mm.</summary>
    private const double LeastWide = 12, LeastHigh = 9;

    /// <summary>How much of a label a code takes at most where there is room.</summary>
    private const double CodeShare = 0.5;

    /// <summary>From line to line, and from the top of a line to where its letters stand, as shares of the type (Open Sans reaches 0.24 below).</summary>
    private const double Leading = 1.25, Rise = 0.95;

    /// <summary>A line that loses more than this of its size is broken.</summary>
    private const double WellBelow = 0.75;

    private const double Measured = 100;

    private readonly XFont _plain, _bold;
    private readonly XGraphics _paper;

    public LabelSetter()
    {
        RecordFonts.Use();
        _plain = new(RecordFonts.Family, Measured);
        _bold = new(RecordFonts.Family, Measured, XFontStyleEx.Bold);
        _paper = XGraphics.CreateMeasureContext(new XSize(1, 1), XGraphicsUnit.Point, XPageDirection.Downwards);
    }

    /// <summary>Lays a label.</summary>
    /// <param name="label">The label.</param>
    /// <param name="box">Where it lies.</param>
    /// <param name="printed">The part of the sheet that is printed.</param>
    public PlacedLabel Set(Label label, LabelBox box, LabelBox printed)
    {
        LabelBox inner = box.Inset(Edge).Within(printed);
        bool isBeside = inner.Width >= inner.Height;
        PlacedCode? code = CodeIn(QrCode.Of(label.Address), inner, isBeside);
        LabelBox words = code is null ? inner
            : isBeside ? inner with { X = inner.X + code.Side, Width = inner.Width - code.Side }
            : inner with { Y = inner.Y + code.Side, Height = inner.Height - code.Side };
        List<LabelLine> lines = Broken(label.Lines, words);
        return new(box, code, SetLines(SizeOf(lines, words) < LeastType ? label.Few : lines, words));
    }

    public void Dispose() => _paper.Dispose();

    private static PlacedCode? CodeIn(QrCode code, LabelBox inner, bool isBeside)
    {
        (double along, double across, double least) = isBeside ? (inner.Width, inner.Height, LeastWide) : (inner.Height, inner.Width, LeastHigh);
        double module = Math.Min(Math.Min(across, along * CodeShare) / code.Width, MostModule);
        if (module < LeastModule)
        {
            // It may take more than its share before it is left off, but no more than it needs.
            module = Math.Min(Math.Min(across, along - least) / code.Width, LeastModule);
        }

        double side = module * code.Width;
        return module < LeastModule ? null
            : isBeside ? new(code, inner.X, inner.Y + ((inner.Height - side) / 2), module)
            : new(code, inner.X + ((inner.Width - side) / 2), inner.Y, module);
    }

    /// <summary>The type of a plain line at which the lines fill the height.</summary>
    private static double SizeOf(IReadOnlyList<LabelLine> lines, LabelBox words) => Math.Min(MostType, words.Height / (Leading * lines.Sum(l => l.Weight)));

    /// <summary>The lines, one that would have to be much smaller than it should be as two.</summary>
    private List<LabelLine> Broken(IReadOnlyList<LabelLine> lines, LabelBox words)
    {
        double plain = SizeOf(lines, words);
        return [.. lines.SelectMany(l => l.MayBreak && Wide(l.Text, l.IsBold) * plain * l.Weight * WellBelow > words.Width ? Halves(l) : [l])];
    }

    /// <summary>A line broken at the blank nearest to its middle.</summary>
    private static LabelLine[] Halves(LabelLine line)
    {
        int[] blanks = [.. line.Text.Index().Where(c => c.Item == ' ').Select(c => c.Index)];
        if (blanks.Length == 0)
        {
            return [line];
        }

        int at = blanks.MinBy(b => Math.Abs((2 * b) - line.Text.Length));
        return [line with { Text = line.Text[..at] }, line with { Text = line.Text[(at + 1)..] }];
    }

    private List<PlacedLine> SetLines(IReadOnlyList<LabelLine> lines, LabelBox words)
    {
        double plain = SizeOf(lines, words), y = words.Y + ((words.Height - (plain * Leading * lines.Sum(l => l.Weight))) / 2);
        List<PlacedLine> placed = [];
        foreach (LabelLine line in lines)
        {
            double high = plain * line.Weight;
            placed.Add(Fit(line, high, words) with { Baseline = y + (high * Rise) });
            y += high * Leading;
        }

        return placed;
    }

    /// <summary>A line that is too wide gets smaller type, and is cut short where that would be too small to read.</summary>
    private PlacedLine Fit(LabelLine line, double high, LabelBox words)
    {
        string whole = new([.. line.Text.Select(c => char.IsControl(c) ? ' ' : c)]), text = whole;
        double wide = Wide(text, line.IsBold), size = Math.Min(high, Math.Max(words.Width / wide, Math.Min(high, LeastType)));
        int[] starts = StringInfo.ParseCombiningCharacters(whole);
        for (int count = starts.Length - 1; wide * size > words.Width + 1e-9 && count > 0; count--)
        {
            text = whole[..starts[count]].TrimEnd() + "\u2026";
            wide = Wide(text, line.IsBold);
        }

        return new(text, line.IsBold, size, words.X, 0, wide * size);
    }

    /// <summary>The width of a text in type one long.</summary>
    private double Wide(string text, bool isBold) => Math.Max(0.1, _paper.MeasureString(text, isBold ? _bold : _plain).Width / Measured);
}
