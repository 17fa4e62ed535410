using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Wear;

namespace Shimwright.Domain.Tests.Wear.Signs;

/// <summary>
/// An engine with nothing wrong, of eight valves and checked three times, on which all that is supposed of it is true: what is known of
/// it at first, its rates, its unrest, the readings and the changes are drawn from the laws that the filter reckons with.
/// </summary>
internal sealed class QuietEngine
{
    public const double Uncertainty = 0.008;
    private const double Known = 0.01;
    private static readonly UsualWear Wear = Kept.Wear;

    private static readonly Engine Eight = Made.Engine(Enumerable.Range(0, 8).Select(v => new Valve(
        $"V{v}", 1 + (v % 4 / 2), v < 4 ? ValveSide.Intake : ValveSide.Exhaust, "cover", v < 4 ? Made.Band : new ClearanceBand(0.20, 0.26))));

    private readonly SeededChance _chance;
    private readonly WearState[] _start;
    private readonly double[] _clearances;
    private readonly double[] _rates;
    private readonly Thickness?[] _fitted;
    private readonly List<WearCheck> _checks = [];

    public QuietEngine(SeededChance chance, Func<int, double>? faster = null)
    {
        _chance = chance;
        _start = [.. Eight.Valves.Select(v => WearState.At(v.Band.Middle, Known * Known, Wear.RateOf(v.Side)))];
        _clearances = [.. _start.Select(s => chance.Normal(s.Clearance, Known))];
        _rates = [.. Eight.Valves.Select((v, i) => chance.Normal(Wear.RateOf(v.Side).Mean, Wear.RateOf(v.Side).StandardDeviation) + ((faster?.Invoke(i) ?? 0) / Wear.Interval))];
        _fitted = [.. _clearances.Select(_ => chance.Happens(0.8) ? Made.Measured(Math.Round(chance.Uniform(2.2, 2.35), 3)) : null)];
        Check(0, 20, read: false);
        Check(chance.Uniform(0.3, 1), 20, read: true, changes: 0.3);
    }

    /// <summary>The last check, at a temperature and perhaps with a jump of one valve before it.</summary>
    public EngineWear Last(double temperature = 20, int jumps = 0, double by = 0)
    {
        _clearances[jumps] += by;
        Check(_chance.Uniform(0.3, 1), temperature, read: true);
        return WearFilter.Follow(_start, _checks, Wear, strayWeight: 0);
    }

    private void Check(double intervals, double temperature, bool read, double changes = 0)
    {
        double time = intervals * Wear.Interval;
        for (int v = 0; v < _clearances.Length; v++)
        {
            _clearances[v] -= (_rates[v] * time) + _chance.Normal(0, Math.Sqrt(Wear.Diffusion * time));
        }

        ValveReadings[] readings = [.. _clearances.Select(c => read ? Made.Value(_chance.Normal(c, Uncertainty), Uncertainty) : ValveReadings.None)];
        Adjustment[] made = [.. Enumerable.Range(0, _clearances.Length).Where(_ => _chance.Happens(changes)).Select(Change)];
        double clock = _checks.Count == 0 ? 0 : _checks[^1].Clock + time;
        _checks.Add(new WearCheck(clock, new EngineCheck(Eight, readings, temperature), _fitted, made));
    }

    private Adjustment Change(int valve)
    {
        double shift = _chance.Uniform(-0.06, 0.06);
        _clearances[valve] += shift + _chance.Normal(0, Seating.Usual.ChangeUncertainty(Math.Sqrt(2) * 0.002));
        return Adjustment.Fitted(valve, Made.Measured(3), Made.Measured(3 - shift));
    }
}
