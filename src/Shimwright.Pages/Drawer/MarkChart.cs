using Shimwright.Bench.Marks;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Pictures;

namespace Shimwright.Pages.Drawer;

/// <summary>Where everything stands in the picture of marks: the mark to the right, how much more the micrometer says upwards.</summary>
public sealed class MarkChart
{
    public const double Width = 380, Height = 270, Left = 70, Right = 14, Top = 24, Bottom = 48;

    private const int MostMarks = 4;

    /// <summary>The least that the axes span, mm.</summary>
    private const double LeastSize = 0.1, LeastDifference = 0.02;

    private readonly (double Low, double High) _sizes;
    private readonly double _most;
    private readonly LengthStyle _lengths;

    public MarkChart(IReadOnlyList<JobMark> marks, double usual, LengthStyle lengths)
    {
        _lengths = lengths;
        double low = marks.Min(m => m.Shim.Marked), high = marks.Max(m => m.Shim.Marked);
        double room = Math.Max(LeastSize, high - low) * 0.08;
        double middle = (low + high) / 2;
        double half = (Math.Max(LeastSize, high - low) / 2) + room;
        _sizes = (middle - half, middle + half);
        _most = 1.15 * Math.Max(LeastDifference, Math.Max(marks.Max(m => Math.Abs(m.Shim.Difference)), 2 * usual));
        Usual = usual;
        Points = [.. marks.Select(m => (X(m.Shim.Marked), Y(m.Shim.Difference), m.Shim.IsOne))];
    }

    /// <summary>The standard deviation that is taken as usual, mm.</summary>
    public double Usual { get; }

    /// <summary>The shims; those that do not count are drawn hollow.</summary>
    public IReadOnlyList<(double X, double Y, bool Counts)> Points { get; }

    public IEnumerable<(double X, string Words)> SizeMarks => Round(_sizes.Low, _sizes.High).Select(s => (X(s), _lengths.Shim(s)));

    public IEnumerable<(double Y, string Words)> DifferenceMarks => Round(-_most, _most).Select(d => (Y(d), Math.Abs(d) < 1e-9 ? "0" : _lengths.Clearance(d).Replace('-', '\u2212')));

    public double X(double size) => Left + ((size - _sizes.Low) / (_sizes.High - _sizes.Low) * (Width - Left - Right));

    public double Y(double difference) => Top + ((_most - difference) / (2 * _most) * (Height - Top - Bottom));

    /// <summary>Numbers that are round in the unit that is shown.</summary>
    private IEnumerable<double> Round(double low, double high)
    {
        double unit = _lengths.Unit switch { LengthUnit.In => 25.4, LengthUnit.Thou => 0.0254, _ => 1 };
        return Ticks.Between(low / unit, high / unit, MostMarks).Select(t => t * unit);
    }
}
