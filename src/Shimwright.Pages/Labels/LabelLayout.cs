using System.Globalization;
using System.Reflection;
using System.Text;

namespace Shimwright.Pages.Labels;

/// <summary>Where something lies on a sheet, mm from its upper left corner.</summary>
/// <param name="X">Its left edge.</param>
/// <param name="Y">Its upper edge.</param>
/// <param name="Width">Its width.</param>
/// <param name="Height">Its height.</param>
public readonly record struct LabelBox(double X, double Y, double Width, double Height)
{
    /// <summary>Its right edge.</summary>
    public double Right => X + Width;

    /// <summary>Its lower edge.</summary>
    public double Bottom => Y + Height;

    /// <summary>What it has in common with another.</summary>
    /// <param name="other">The other.</param>
    /// <returns>The part; without width or height where there is none.</returns>
    public LabelBox Within(LabelBox other)
    {
        double x = Math.Max(X, other.X), y = Math.Max(Y, other.Y);
        return new(x, y, Math.Max(0, Math.Min(Right, other.Right) - x), Math.Max(0, Math.Min(Bottom, other.Bottom) - y));
    }

    /// <summary>The same, smaller by so much on every side.</summary>
    /// <param name="by">By how much.</param>
    /// <returns>The smaller one.</returns>
    public LabelBox Inset(double by) => new(X + by, Y + by, Width - (2 * by), Height - (2 * by));
}

/// <summary>A sheet of labels, or a roll of which each label is a sheet. Lengths in mm.</summary>
/// <param name="Id">Its name in addresses.</param>
/// <param name="Paper">The paper: those of one name have one size.</param>
/// <param name="Name">What a person chooses by.</param>
/// <param name="Sheet">The sheet.</param>
/// <param name="First">The first label.</param>
/// <param name="Columns">How many labels stand beside each other.</param>
/// <param name="Rows">How many stand below each other.</param>
/// <param name="PitchX">From the left edge of a label to that of the next.</param>
/// <param name="PitchY">From the upper edge of a label to that of the next below.</param>
/// <param name="Source">Where its dimensions come from.</param>
public sealed record LabelLayout(
    string Id, string Paper, string Name, LabelBox Sheet, LabelBox First, int Columns, int Rows, double PitchX, double PitchY, string Source)
{
    /// <summary>What most printers leave white along the edges of a sheet (common practice, no source).</summary>
    private const double PrinterEdge = 4.5;

    /// <summary>Every layout.</summary>
    public static IReadOnlyList<LabelLayout> All { get; } = Read();

    /// <summary>The one that is taken where none is chosen.</summary>
    public static LabelLayout Usual { get; } = Named("a4-3x7")!;

    /// <summary>How many labels a sheet has.</summary>
    public int PerSheet => Columns * Rows;

    /// <summary>Whether each label is a sheet of its own.</summary>
    public bool IsRoll => PerSheet == 1;

    /// <summary>The part of the sheet that a printer reaches.</summary>
    public LabelBox Printed => IsRoll ? Sheet : Sheet.Inset(PrinterEdge);

    /// <summary>The layout of a name.</summary>
    /// <param name="id">The name.</param>
    /// <returns>The layout, or null.</returns>
    public static LabelLayout? Named(string? id) => All.FirstOrDefault(l => l.Id == id);

    /// <summary>A label: row by row from the upper left.</summary>
    /// <param name="place">Which, from 0.</param>
    /// <returns>Where it lies.</returns>
    public LabelBox At(int place) => First with { X = First.X + (place % Columns * PitchX), Y = First.Y + (place / Columns * PitchY) };

    private static LabelLayout[] Read()
    {
        using Stream stream = Assembly.GetExecutingAssembly().GetManifestResourceStream("Labels.layouts.csv") ?? throw new InvalidOperationException("There are no layouts.");
        using StreamReader reader = new(stream, Encoding.UTF8);
        return [.. reader.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Skip(1).Select(l => Of(l.Split(',')))];
    }

    private static LabelLayout Of(string[] cells)
    {
        double[] lengths = [.. cells[3..13].Select(c => double.Parse(c, CultureInfo.InvariantCulture))];
        return new(
            cells[0], cells[1], cells[2], new(0, 0, lengths[0], lengths[1]), new(lengths[2], lengths[3], lengths[6], lengths[7]),
            (int)lengths[4], (int)lengths[5], lengths[8], lengths[9], cells[13]);
    }
}
