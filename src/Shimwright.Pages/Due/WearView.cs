using Shimwright.Bench.Due;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Pages.Pictures;

namespace Shimwright.Pages.Due;

/// <summary>One valve on the page of an engine's wear.</summary>
public sealed record WearRow(Valve Valve, TrendChart Chart, ForecastRow Forecast, WearState Now);

/// <summary>What valves lost between two checks, mm, in the engine's order; null where a valve was not read at both.</summary>
public sealed record LossRow(double From, double To, double Usual, IReadOnlyList<double?> Losses);

/// <summary>What the page of an engine's wear shows.</summary>
public sealed class WearView
{
    public WearView(StoredOutlook stored, ClockStyle clocks, LengthStyle lengths)
    {
        Wear = stored.Outlook.ToWear(stored.Usual);
        Result = stored.Outlook.ToResult(stored.Usual);
        IReadOnlyList<IReadOnlyList<WearState>> smooth = WearSmoother.Smooth(Wear);
        Valves = [.. Wear.Engine.Valves.Select((valve, v) => new WearRow(
            valve, new TrendChart(Wear, smooth[v], v, clocks, lengths), Result.Valves[v], Wear.Now[v]))];
        Losses = [.. LossesOf(Wear)];
    }

    public EngineWear Wear { get; }

    public ForecastResult Result { get; }

    public double Interval => Wear.Usual.Interval;

    public IReadOnlyList<WearRow> Valves { get; }

    public IReadOnlyList<LossRow> Losses { get; }

    /// <summary>From one clock to the next: what was left after the one check against what was found at the first reading after it.</summary>
    private static IEnumerable<LossRow> LossesOf(EngineWear wear)
    {
        for (int k = 1; k < wear.Checks.Count; k++)
        {
            double from = wear.Checks[k - 1].Clock, to = wear.Checks[k].Clock;
            if (to > from)
            {
                int at = k;
                yield return new(from, to, wear.Usual.RateOf(ValveSide.Intake).Mean * (to - from), [.. wear.Valves.Select(points =>
                    points[at].WasRead ? points[at - 1].Left.Clearance - points[at].Found.Clearance : (double?)null)]);
            }
        }
    }
}
