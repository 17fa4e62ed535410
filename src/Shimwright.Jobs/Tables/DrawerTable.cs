using System.Globalization;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Tables;

/// <summary>How many shims of one size there are.</summary>
/// <param name="Line">The line in the file, from 1.</param>
/// <param name="Diameter">Diameter, mm.</param>
/// <param name="Thickness">Thickness, mm.</param>
/// <param name="By">marked, calliper or micrometer.</param>
/// <param name="Count">How many.</param>
/// <param name="Place">Where they lie, or null.</param>
/// <param name="Price">The price of one, or null.</param>
public sealed record DrawerLine(int Line, double Diameter, double Thickness, string By, int Count, string? Place, double? Price);

/// <summary>A file of a drawer read: its lines, or everything that is wrong with it.</summary>
/// <param name="Lines">The lines; none where there are problems.</param>
/// <param name="Problems">All problems.</param>
public sealed record DrawerReading(IReadOnlyList<DrawerLine> Lines, IReadOnlyList<TableProblem> Problems);

/// <summary>A drawer as a file of lines and columns.</summary>
public static class DrawerTable
{
    private const int MostCount = 10_000;
    private const int LongestPlace = 200;
    private const double HighestPrice = 1e6;
    private const double Finest = 0.001;

    private static readonly NumberRule Diameters = new(1, 100, Measure.Length);
    private static readonly NumberRule Thicknesses = new(Thickness.Thinnest, Thickness.Thickest, Measure.Length);
    private static readonly string[] Required = ["diameter", "thickness", "count"];
    private static readonly string[] Optional = ["by", "place", "price"];

    private static readonly Dictionary<string, int> Instruments = new(StringComparer.Ordinal) { ["marked"] = 0, ["calliper"] = 1, ["micrometer"] = 2 };

    /// <summary>The columns of a file that is written.</summary>
    public static IReadOnlyList<ListColumn<DrawerLine>> Columns { get; } =
    [
        new("diameter_mm", "diameter", l => l.Diameter),
        new("thickness_mm", "thickness", l => l.Thickness.ToString("0.000", CultureInfo.InvariantCulture)),
        new("by", "how the thickness was found: marked, calliper or micrometer", l => l.By),
        new("count", "how many are in the compartment", l => l.Count),
        new("place", "compartment", l => l.Place),
        new("price", "unit price", l => l.Price),
    ];

    /// <summary>Reads a file.</summary>
    /// <param name="utf8">The file: diameter, thickness (mm, or with their unit) and count, and where wanted by, place and price.</param>
    /// <returns>The lines, or all problems.</returns>
    public static DrawerReading Read(ReadOnlySpan<byte> utf8)
    {
        List<TableProblem> problems = [];
        if (TableText.Read(utf8, Required, Optional, problems) is not { } table)
        {
            return new([], TableProblem.First(problems));
        }

        List<DrawerLine> lines = [.. table.Rows.TakeWhile(_ => !FirstProblems.AreEnough(problems)).Select(ReadLine).OfType<DrawerLine>()];
        foreach (IGrouping<(double, double, string), DrawerLine> twice in lines.GroupBy(l => (l.Diameter, l.Thickness, l.By)).Where(g => g.Count() > 1))
        {
            problems.AddRange(twice.Skip(1).Select(l => new TableProblem(l.Line, "thickness", $"the same size as in line {twice.First().Line}", "enter each size once")));
        }

        if (lines.Count == 0 && problems.Count == 0)
        {
            problems.Add(new(0, "", "no line under the heading", "enter one line per size"));
        }

        return problems.Count == 0 ? new(lines, []) : new([], TableProblem.First(problems));
    }

    /// <summary>Writes a file that can be read again.</summary>
    /// <param name="lines">The lines.</param>
    /// <returns>Text: lengths in mm to the micrometre.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="lines"/> is null.</exception>
    public static string Write(IEnumerable<DrawerLine> lines)
    {
        return ListTable.Write(Columns, lines);
    }

    private static DrawerLine? ReadLine(TableRow row)
    {
        double? diameter = row.Number("diameter", Diameters);
        double? thickness = row.Number("thickness", Thicknesses);
        int? count = row.Has("count") ? row.Whole("count", 0, MostCount, 0) : NoCount(row);
        int? by = row.Has("by") ? row.Choice("by", Instruments) : 0;
        double? price = row.Has("price") ? row.Number("price", new(0, HighestPrice)) : null;
        string? place = CellText.Read(row.Text("place"));
        if (place?.Length > LongestPlace)
        {
            row.Problem("place", place, $"allowed are {LongestPlace} characters");
        }

        return diameter is { } d && thickness is { } t && count is { } n && by is { } i
            ? new(row.Line, Round(d), Round(t), Instruments.First(k => k.Value == i).Key, n, place, price)
            : null;
    }

    private static int? NoCount(TableRow row)
    {
        row.Problem("count", "", "enter the number of shims, 0 for none");
        return null;
    }

    /// <summary>Shims are kept to the micrometre.</summary>
    private static double Round(double length) => Math.Round(length / Finest) / 1000;
}
