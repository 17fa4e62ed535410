using System.Globalization;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;

namespace Shimwright.Pages.Due;

/// <summary>Wear in words.</summary>
internal static class WearText
{
    /// <summary>An engine is not expected to outlive so many maker's intervals. Common practice, no source.</summary>
    private const double IntervalsOfALife = 40;

    private const string NotInItsLife = "not within this engine's life";

    /// <summary>How strong a sign is: how often a sound engine would look so.</summary>
    public static string Evidence(double chance) => chance switch
    {
        < 1e-6 => "Very unlikely in a sound engine (less than 1 in 1,000,000).",
        < 0.01 => string.Create(CultureInfo.InvariantCulture, $"Very unlikely in a sound engine (1 in {Round(1 / chance):#,0})."),
        < 0.1 => string.Create(CultureInfo.InvariantCulture, $"Unlikely in a sound engine (1 in {Round(1 / chance):0})."),
        _ => string.Create(CultureInfo.InvariantCulture, $"{chance * 100:0} % chance."),
    };

    /// <summary>A time from now, to two digits; in words where no engine lasts so long.</summary>
    public static string After(double? time, double interval, ClockStyle clocks) =>
        time is not { } left || left > IntervalsOfALife * interval ? NotInItsLife : $"after about {clocks.Text(left > 0 ? Round(left) : 0)}";

    /// <summary>When a valve is expected at its limit: the clock, in few words.</summary>
    public static string AtLimit(WearState now, ClearanceBand band, double clock, double interval, ClockStyle clocks)
    {
        if (now.Clearance <= band.Low || now.Clearance >= band.High)
        {
            return "out now";
        }

        double room = now.Rate > 0 ? now.Clearance - band.Low : band.High - now.Clearance;
        return now.Rate == 0 || room / Math.Abs(now.Rate) > IntervalsOfALife * interval ? "not in its life"
            : $"at {clocks.Text(clock + Round(room / Math.Abs(now.Rate)))}";
    }

    /// <summary>How far a valve is from the limit that it moves towards, mm; below 0 where it is out.</summary>
    public static double Room(WearState now, ClearanceBand band) =>
        now.Rate < 0 || now.Clearance > band.High ? band.High - now.Clearance : now.Clearance - band.Low;

    /// <summary>Where a gap is going: an arrow and a word. Within its own uncertainty it is steady.</summary>
    public static string Trend(ForecastRow row, RateDistribution usual, double interval) =>
        row.LossPerInterval < -row.SdLossPerInterval ? "\u2191 opening"
        : row.LossPerInterval <= row.SdLossPerInterval ? "\u2192 steady"
        : row.LossPerInterval > interval * (usual.Mean + (2 * usual.StandardDeviation)) ? "\u2193 closing fast"
        : "\u2193 closing";

    private static double Round(double value)
    {
        if (value <= 0)
        {
            return 0;
        }

        double power = Math.Pow(10, Math.Floor(Math.Log10(value)) - 1);
        return Math.Round(value / power) * power;
    }
}
