using MathNet.Numerics.RootFinding;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Wear;

/// <summary>What is to be expected of one valve.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="LossPerInterval">Clearance it loses in an interval, mm.</param>
/// <param name="LossSpread">Standard deviation of that, mm.</param>
/// <param name="ChanceOutAtInterval">The chance that it is outside its band now or will have been within an interval.</param>
public sealed record ValveForecast(Valve Valve, double LossPerInterval, double LossSpread, double ChanceOutAtInterval);

/// <summary>When an engine is to be checked again, and what is to be expected of its valves until then.</summary>
public sealed class EngineForecast
{
    /// <summary>The risk of a valve outside its band at which the next check is due, unless told otherwise.</summary>
    public const double UsualRisk = 0.10;

    private const double RelativeAccuracy = 1e-9;
    private const int MostSteps = 60;
    private readonly IReadOnlyList<WearState> _now;
    private readonly UsualWear _wear;
    private readonly IReadOnlyList<Valve> _valves;

    private EngineForecast(EngineWear wear, double risk)
    {
        _now = wear.Now;
        _wear = wear.Usual;
        _valves = wear.Engine.Valves;
        Clock = wear.Clock;
        Risk = Guard.Within(risk, 0, 1);
        double[] atInterval = ChancesAfter(_wear.Interval);
        Valves = [.. _valves.Select((valve, v) => new ValveForecast(
            valve, _now[v].Rate * _wear.Interval, _now[v].RateSpread * _wear.Interval, atInterval[v]))];
        CheckBy = Clock + TimeUntil(Risk, Any(atInterval));
    }

    /// <summary>The engine's clock at the last check.</summary>
    public double Clock { get; }

    /// <summary>The risk at which the next check is due.</summary>
    public double Risk { get; }

    /// <summary>
    /// The earliest reading of the clock at which the chance of any valve outside its band reaches the risk; at most an
    /// interval from the last check, and the clock of the last check where the risk is there already.
    /// </summary>
    public double CheckBy { get; }

    /// <summary>Every valve, in the engine's order.</summary>
    public IReadOnlyList<ValveForecast> Valves { get; }

    /// <summary>Forecasts an engine from its last check on.</summary>
    /// <param name="wear">What its checks say.</param>
    /// <param name="risk">The risk at which the next check is due, 0 to 1.</param>
    /// <returns>The forecast.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="wear"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="risk"/> is outside its range.</exception>
    public static EngineForecast Of(EngineWear wear, double risk = UsualRisk)
    {
        ArgumentNullException.ThrowIfNull(wear);
        return new(wear, risk);
    }

    /// <summary>The chance that any valve is outside its band, or has been, when the clock stands at <paramref name="clock"/>.</summary>
    /// <param name="clock">A clock not before that of the last check.</param>
    /// <returns>1 - Π(1 - P) over the valves, which are independent.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="clock"/> is before that of the last check.</exception>
    public double RiskAt(double clock)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(clock, Clock);
        return Any(ChancesAfter(clock - Clock));
    }

    private double TimeUntil(double risk, double atInterval)
    {
        if (Any(ChancesAfter(0)) >= risk)
        {
            return 0;
        }

        if (atInterval < risk)
        {
            return _wear.Interval;
        }

        double interval = _wear.Interval;
        return Brent.TryFindRoot(
            part => Any(ChancesAfter(part * interval)) - risk, 0, 1, RelativeAccuracy, MostSteps, out double found)
            ? found * interval
            : interval;
    }

    private double[] ChancesAfter(double time) => [.. _valves.Select((valve, v) =>
        PassageRisk.Chance(_now[v], valve.Band, _wear.Diffusion, time))];

    private static double Any(IEnumerable<double> chances) => 1 - chances.Aggregate(1.0, (none, chance) => none * (1 - chance));
}
