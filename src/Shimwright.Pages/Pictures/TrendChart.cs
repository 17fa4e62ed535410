using Shimwright.Domain.Engines;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Pictures;

/// <summary>A check of one valve in the picture of its trend.</summary>
/// <param name="Clock">The engine's clock.</param>
/// <param name="Clearance">The clearance found, at 20 °C, mm.</param>
/// <param name="Reach">Half of the range in which it lies 95 times in 100, mm.</param>
/// <param name="WasRead">Whether it was read then, or is only expected.</param>
/// <param name="Left">The clearance after the work, mm; as found where nothing was changed.</param>
/// <param name="WasChanged">Whether its shim or screw was changed.</param>
public sealed record TrendPoint(double Clock, double Clearance, double Reach, bool WasRead, double Left, bool WasChanged);

/// <summary>Where everything stands in the picture of one valve's clearance against the clock.</summary>
public sealed class TrendChart
{
    public const double Width = 380, Height = 250, Left = 56, Right = 14, Top = 14, Bottom = 44;

    private const double Reach95 = 1.959964;
    private const int FanSteps = 16;
    private readonly ClockStyle _clocks;
    private readonly LengthStyle _lengths;
    private readonly double _low, _high;

    public TrendChart(EngineWear wear, IReadOnlyList<WearState> smoothed, int valve, ClockStyle clocks, LengthStyle lengths)
    {
        _clocks = clocks;
        _lengths = lengths;
        Band = wear.Engine.Valves[valve].Band;
        Points = [.. wear.Valves[valve].Select(p => new TrendPoint(
            p.Clock, p.Found.Clearance, Reach95 * p.Found.ClearanceSpread, p.WasRead, p.Left.Clearance, p.Shift != 0 || p.WasSet))];
        Line = [.. smoothed.Select((s, k) => (s.Clearance, wear.Valves[valve][k].WasSet ? wear.Valves[valve][k].Left.Clearance : s.Clearance + wear.Valves[valve][k].Shift))];
        WearState now = wear.Now[valve];
        Fan = [.. Enumerable.Range(0, FanSteps + 1).Select(k => wear.Usual.Interval * k / FanSteps)
            .Select(time => (wear.Clock + time, now.After(time, wear.Usual.Diffusion)))
            .Select(s => (s.Item1, s.Item2.Clearance, Reach95 * s.Item2.ClearanceSpread))];
        First = Points[0].Clock;
        Last = Fan[^1].Clock;
        double[] reached = [Band.Low, Band.High, .. Points.SelectMany(p => new[] { p.Clearance - p.Reach, p.Clearance + p.Reach, p.Left }), .. Fan.SelectMany(f => new[] { f.Mean - f.Reach, f.Mean + f.Reach })];
        double room = 0.06 * (reached.Max() - reached.Min());
        _low = reached.Min() - room;
        _high = reached.Max() + room;
    }

    public ClearanceBand Band { get; }

    public IReadOnlyList<TrendPoint> Points { get; }

    /// <summary>The smoothed clearance at each check, as found and as left, mm.</summary>
    public IReadOnlyList<(double Found, double Left)> Line { get; }

    /// <summary>The forecast: clock, mean and reach, mm.</summary>
    public IReadOnlyList<(double Clock, double Mean, double Reach)> Fan { get; }

    public double First { get; }

    public double Last { get; }

    public double X(double clock) => Left + ((clock - First) / (Last - First) * (Width - Left - Right));

    public double Y(double clearance) => Height - Bottom - ((clearance - _low) / (_high - _low) * (Height - Top - Bottom));

    /// <summary>Marks of the clock: place and text.</summary>
    public IEnumerable<(double X, string Words)> ClockMarks
    {
        get
        {
            double unit = _clocks.Shown(1);
            return Ticks.Between(First * unit, Last * unit, 6).Select(t => (X(t / unit), Times.Number(t)));
        }
    }

    /// <summary>Marks of the clearance: place and text.</summary>
    public IEnumerable<(double Y, string Words)> ClearanceMarks
    {
        get
        {
            double unit = _lengths.Unit switch { LengthUnit.In => 1 / 25.4, LengthUnit.Thou => 1000 / 25.4, _ => 1 };
            return Ticks.Between(_low * unit, _high * unit, 6).Select(t => (Y(t / unit), t.ToString("0.####", System.Globalization.CultureInfo.InvariantCulture)));
        }
    }

    /// <summary>The smoothed line with its steps.</summary>
    public string LinePath => string.Join(' ', Line.Select((l, k) =>
        $"{(k == 0 ? "M" : "L")}{At(Points[k].Clock, l.Found)}{(Points[k].WasChanged ? $" L{At(Points[k].Clock, l.Left)}" : "")}"));

    /// <summary>The forecast's middle.</summary>
    public string FanLine => string.Join(' ', Fan.Select((f, k) => $"{(k == 0 ? "M" : "L")}{At(f.Clock, f.Mean)}"));

    /// <summary>The forecast's range.</summary>
    public string FanPath =>
        string.Join(' ', Fan.Select((f, k) => $"{(k == 0 ? "M" : "L")}{At(f.Clock, f.Mean + f.Reach)}")
            .Concat(Fan.Reverse().Select(f => $"L{At(f.Clock, f.Mean - f.Reach)}"))) + " Z";

    private string At(double clock, double clearance) => $"{Svg.N(X(clock))} {Svg.N(Y(clearance))}";
}
