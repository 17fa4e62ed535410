using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Wear;

/// <summary>What the checks of an engine say about its valves, check by check.</summary>
public sealed class EngineWear
{
    internal EngineWear(
        Engine engine, UsualWear usual, IReadOnlyList<WearCheck> checks, IReadOnlyList<IReadOnlyList<WearPoint>> valves)
    {
        Engine = engine;
        Usual = usual;
        Checks = checks;
        Valves = valves;
    }

    /// <summary>The engine.</summary>
    public Engine Engine { get; }

    /// <summary>What wear was taken as usual.</summary>
    public UsualWear Usual { get; }

    /// <summary>The checks, oldest first.</summary>
    public IReadOnlyList<WearCheck> Checks { get; }

    /// <summary>Each valve, in the engine's order, at each check.</summary>
    public IReadOnlyList<IReadOnlyList<WearPoint>> Valves { get; }

    /// <summary>The engine's clock at the last check.</summary>
    public double Clock => Checks[^1].Clock;

    /// <summary>Each valve as the last check left it.</summary>
    public IReadOnlyList<WearState> Now => [.. Valves.Select(v => v[^1].Left)];

    /// <summary>What is expected of each valve when the clock will stand at <paramref name="clock"/>.</summary>
    /// <param name="clock">A clock not before that of the last check.</param>
    /// <returns>Each valve's state.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="clock"/> is before that of the last check.</exception>
    public IReadOnlyList<WearState> PredictedAt(double clock)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(clock, Clock);
        return [.. Now.Select(s => s.After(clock - Clock, Usual.Diffusion))];
    }

    /// <summary>What the past lets expect of a check at <paramref name="clock"/>.</summary>
    /// <param name="clock">A clock not before that of the last check.</param>
    /// <returns>The prior of that check.</returns>
    public HistoryPrior PriorAt(double clock) => new(PredictedAt(clock).Select(s => s.Expected()));

    /// <summary>
    /// Clearance that a valve has taken up since the first record: what shims and screws have given back, and what its
    /// clearance has fallen by. The thicknesses found are taken where both are known, else the changes on record.
    /// </summary>
    /// <param name="valve">The valve's place in the engine, from 0.</param>
    /// <returns>mm, at the gap; or null where there is one record only.</returns>
    public double? RecessionOf(int valve)
    {
        if (Checks.Count < 2)
        {
            return null;
        }

        IReadOnlyList<WearPoint> points = Valves[valve];
        double given = Checks[0].Fitted[valve] is { } first && Checks[^1].Fitted[valve] is { } now
            ? Leverage.Of(Engine.Valvetrain).AtTheGap(first.Millimetres - now.Millimetres)
            : points.SkipLast(1).Sum(p => p.Shift);
        return given + points[0].Found.Clearance - points[^1].Found.Clearance;
    }
}
