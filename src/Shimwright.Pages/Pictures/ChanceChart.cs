using System.Globalization;

namespace Shimwright.Pages.Pictures;

/// <summary>A plan as the picture of minutes against chance shows it.</summary>
/// <param name="Number">Its number on the page.</param>
/// <param name="Minutes">Work and expected rework, minutes.</param>
/// <param name="Chance">The chance that all pass the first time, 0 to 1.</param>
/// <param name="Advised">Whether it is the one of least expected minutes.</param>
/// <param name="Shown">Whether the page shows it.</param>
public sealed record ChancePoint(int Number, double Minutes, double Chance, bool Advised, bool Shown);

/// <summary>A point with its place in the picture.</summary>
internal sealed record PlacedPoint(ChancePoint Point, double X, double Y, double LabelX, double LabelY);

/// <summary>Where everything stands in the picture of minutes against chance: minutes to the right, chance upwards.</summary>
internal sealed class ChanceChart
{
    public const double Width = 360, Height = 250, Left = 52, Right = 14, Top = 30, Bottom = 46;

    /// <summary>Room that a number takes, so that no two are written over each other.</summary>
    private const double LabelWidth = 17, LabelHeight = 15;

    private const int MostTicks = 5;

    /// <summary>Steps left free beyond the first and the last point.</summary>
    private const double Margin = 0.3;

    private static readonly int[] Steps = [1, 2, 5, 10];

    public ChanceChart(IReadOnlyList<ChancePoint> points)
    {
        double greatest = points.Count == 0 ? 1 : points.Max(p => p.Minutes), least = points.Count == 0 ? 0 : points.Min(p => p.Minutes);
        Step = StepFor(Math.Max(1, greatest - least));
        First = Math.Max(0, Math.Floor((least / Step) - Margin)) * Step;
        Last = Math.Max(First + Step, Math.Ceiling((greatest / Step) + Margin) * Step);
        Lowest = points.Count == 0 ? 0 : Math.Max(0, Math.Floor((points.Min(p => p.Chance) - 0.02) * 10) / 10);
        Highest = points.Count == 0 ? 1 : Math.Min(1, Math.Ceiling((points.Max(p => p.Chance) + 0.02) * 10) / 10);
        Points = Place(points);
    }

    /// <summary>Minutes between two marks of the axis.</summary>
    public double Step { get; }

    /// <summary>Minutes at the left end.</summary>
    public double First { get; }

    /// <summary>The chance at the lower and at the upper end: the picture is as large as what it shows.</summary>
    public double Lowest { get; }

    public double Highest { get; }

    /// <summary>Minutes at the right end.</summary>
    public double Last { get; }

    /// <summary>The points; the advised and the shown one come last, so that nothing covers them.</summary>
    public IReadOnlyList<PlacedPoint> Points { get; }

    public IEnumerable<double> MinuteMarks => Enumerable.Range(0, (int)Math.Round((Last - First) / Step) + 1).Select(k => First + (k * Step));

    public IEnumerable<double> ChanceMarks => Enumerable.Range(0, 5).Select(k => Lowest + (k / 4.0 * (Highest - Lowest)));

    public double X(double minutes) => Left + ((minutes - First) / (Last - First) * (Width - Left - Right));

    public double Y(double chance) => Height - Bottom - ((chance - Lowest) / (Highest - Lowest) * (Height - Top - Bottom));

    /// <summary>A number for an attribute of the picture.</summary>
    public static string At(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);

    private static double StepFor(double greatest)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(greatest, 1) / MostTicks)));
        double step = Steps.Select(m => m * power).First(s => s * MostTicks >= greatest);
        return Math.Max(1, step);
    }

    private List<PlacedPoint> Place(IReadOnlyList<ChancePoint> points)
    {
        List<PlacedPoint> placed = [];
        // The points that matter most get the best place for their number; they are drawn last.
        foreach (ChancePoint point in points.OrderByDescending(p => p.Shown).ThenByDescending(p => p.Advised).ThenBy(p => p.Number))
        {
            double x = X(point.Minutes), y = Y(point.Chance);
            (double X, double Y)[] places =
            [
                (x, y - 14), (x + 17, y), (x - 17, y), (x, y + 16), (x + 15, y - 12), (x - 15, y - 12), (x + 15, y + 14), (x - 15, y + 14),
                (x, y - 30), (x, y + 32), (x + 34, y), (x - 34, y),
            ];
            (double labelX, double labelY) = places.FirstOrDefault(
                l => l.X is > Left and < Width - 6 && l.Y is > 6 and < Height - Bottom - 4 && IsFree(l, points, placed), places[0]);
            placed.Add(new(point, x, y, labelX, labelY));
        }

        placed.Reverse();
        return placed;
    }

    private bool IsFree((double X, double Y) label, IReadOnlyList<ChancePoint> points, List<PlacedPoint> placed) =>
        placed.All(p => Math.Abs(p.LabelX - label.X) >= LabelWidth || Math.Abs(p.LabelY - label.Y) >= LabelHeight)
        && points.All(p => Math.Abs(X(p.Minutes) - label.X) >= 13 || Math.Abs(Y(p.Chance) - label.Y) >= 13);
}
