using Shimwright.Bench.Due;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Pictures;

/// <summary>Where everything stands in the picture of risk against the clock.</summary>
internal sealed class RiskChart
{
    public const double Width = 340, Height = 150, Left = 54, Right = 12, Top = 12, Bottom = 34;

    private static readonly double[] Scales = [0.25, 0.5, 1];

    private readonly IReadOnlyList<RiskPoint> _curve;
    private readonly KeptForecast _forecast;

    public RiskChart(KeptForecast forecast)
    {
        _forecast = forecast;
        _curve = forecast.Curve;
        double greatest = Math.Max(2 * forecast.Risk, _curve.Count == 0 ? 0 : _curve.Max(p => p.Risk));
        Most = Scales.FirstOrDefault(s => s >= greatest, 1);
    }

    /// <summary>The chance at the upper edge.</summary>
    public double Most { get; }

    public double First => _curve.Count == 0 ? _forecast.Clock : _curve[0].Clock;

    public double Last => _curve.Count == 0 ? _forecast.Clock + 1 : _curve[^1].Clock;

    public double CheckBy => _forecast.CheckBy ?? First;

    public double X(double clock) => Left + ((clock - First) / Math.Max(1e-9, Last - First) * (Width - Left - Right));

    public double Y(double chance) => Height - Bottom - (Math.Min(chance, Most) / Most * (Height - Top - Bottom));

    public string Line => string.Join(' ', _curve.Select((p, i) => $"{(i == 0 ? "M" : "L")}{Svg.N(X(p.Clock))} {Svg.N(Y(p.Risk))}"));

    public string Area => _curve.Count == 0 ? "" : $"{Line} L{Svg.N(X(Last))} {Svg.N(Y(0))} L{Svg.N(X(First))} {Svg.N(Y(0))} Z";

    /// <summary>The chance on the curve at a clock.</summary>
    public double At(double clock)
    {
        for (int i = 1; i < _curve.Count; i++)
        {
            if (clock <= _curve[i].Clock)
            {
                double span = _curve[i].Clock - _curve[i - 1].Clock;
                double part = span > 0 ? (clock - _curve[i - 1].Clock) / span : 0;
                return _curve[i - 1].Risk + (part * (_curve[i].Risk - _curve[i - 1].Risk));
            }
        }

        return _curve.Count == 0 ? 0 : _curve[^1].Risk;
    }

    public string Words(ClockStyle clocks) =>
        $"Chance that any valve is outside its band: {Chances.Rough(At(First))} at {clocks.Text(First)}, "
        + $"{Chances.Rough(At(CheckBy))} at {clocks.Text(CheckBy)} (check by), and {Chances.Rough(At(Last))} at {clocks.Text(Last)} (end of the interval). "
        + $"Risk limit {Chances.Rough(_forecast.Risk)}.";
}
