using Shimwright.Domain.Readings;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Pages.Pictures;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.FeelCalibration;

/// <summary>One of the four feels in the picture: its trials, and its chance against the play with the fitted and the usual feel.</summary>
public sealed record FeelLane(Feel Feel, string Name, double Base, IReadOnlyList<double> Trials, string Fitted, string Usual);

/// <summary>A step of play in the table beside the picture: trials that felt so, and the chances of each feel.</summary>
public sealed record FeelStep(double Play, IReadOnlyList<int> Felt, IReadOnlyList<double> Fitted, IReadOnlyList<double> Usual);

/// <summary>Where everything stands in the picture of the four feels: the play, gap less blade, to the right; a lane for each feel, loose on top.</summary>
public sealed class FeelChart
{
    public const double Width = 390, Left = 98, Right = 12, Top = 8, LaneHeight = 62, Gap = 14, Bottom = 42;

    private const int Points = 96;

    /// <summary>Trials farther off than this are counted, not drawn; and the room beside the outermost, mm.</summary>
    private const double Farthest = 0.1, Edge = 0.002;

    /// <summary>Half of a step of the table, mm.</summary>
    private const double HalfStep = 0.005;

    private static readonly Feel[] TopDown = [Feel.Loose, Feel.Light, Feel.Firm, Feel.No];

    private readonly LengthStyle _lengths;
    private readonly double _low, _high;

    public FeelChart(IReadOnlyList<TrialMade> trials, FeelProfile fitted, LengthStyle lengths)
    {
        _lengths = lengths;
        FeelProfile usual = FeelProfile.Default;
        double room = 4 * Math.Max(fitted.StandardDeviationOf(1), usual.StandardDeviationOf(1));
        double[] plays = [.. trials.Select(Play).Where(p => Math.Abs(p) <= Farthest)];
        _low = plays.Append(Math.Min(fitted.Firm, usual.Firm) - room).Min() - Edge;
        _high = plays.Append(Math.Max(fitted.Loose, usual.Loose) + room).Max() + Edge;
        Beyond = trials.Count(t => !IsInside(Play(t)));
        Lanes = [.. TopDown.Select((feel, k) =>
        {
            double bottom = Top + ((k + 1) * LaneHeight) + (k * Gap);
            double[] felt = [.. trials.Where(t => t.Feel == Words.Of(feel)).Select(Play).Where(IsInside)];
            return new FeelLane(feel, FactWords.OfFeel(Words.Of(feel)), bottom, felt, Curve(fitted, feel, bottom), Curve(usual, feel, bottom));
        })];
        Steps = [.. Enumerable.Range(0, (int)Math.Floor((_high - _low) / (2 * HalfStep)) + 1)
            .Select(k => (Math.Ceiling(_low / (2 * HalfStep)) + k) * 2 * HalfStep).Where(p => p <= _high)
            .Select(play => new FeelStep(
                play,
                [.. TopDown.Select(f => trials.Count(t => t.Feel == Words.Of(f) && Play(t) >= play - HalfStep && Play(t) < play + HalfStep))],
                [.. TopDown.Select(f => fitted.Chance(f, play, 0))],
                [.. TopDown.Select(f => usual.Chance(f, play, 0))]))];
    }

    public static double Height => Top + (4 * LaneHeight) + (3 * Gap) + Bottom;

    /// <summary>The foot of the lowest lane.</summary>
    public static double Foot => Height - Bottom;

    public IReadOnlyList<FeelLane> Lanes { get; }

    /// <summary>The picture in numbers.</summary>
    public IReadOnlyList<FeelStep> Steps { get; }

    /// <summary>Trials so far off that the picture has no room for them.</summary>
    public int Beyond { get; }

    public string UnitName => _lengths.UnitName;

    public string Text(double play) => _lengths.Clearance(play);

    public double X(double play) => Left + ((play - _low) / (_high - _low) * (Width - Left - Right));

    /// <summary>Marks of the play: place and text.</summary>
    public IEnumerable<(double X, string Words)> Marks
    {
        get
        {
            double unit = _lengths.Unit switch { LengthUnit.In => 1 / 25.4, LengthUnit.Thou => 1000 / 25.4, _ => 1 };
            return Ticks.Between(_low * unit, _high * unit, 6).Select(t => (X(t / unit), (t + 0.0).ToString("0.####;-0.####;0", System.Globalization.CultureInfo.InvariantCulture)));
        }
    }

    private static double Play(TrialMade trial) => trial.Gap - trial.Blade;

    private bool IsInside(double play) => play >= _low && play <= _high;

    private string Curve(FeelProfile profile, Feel feel, double bottom) => string.Join(' ', Enumerable.Range(0, Points + 1).Select(k =>
    {
        double play = _low + ((_high - _low) * k / Points);
        return $"{(k == 0 ? "M" : "L")}{Svg.N(X(play))} {Svg.N(bottom - (LaneHeight * profile.Chance(feel, play, 0)))}";
    }));
}
