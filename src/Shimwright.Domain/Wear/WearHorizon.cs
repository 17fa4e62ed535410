using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Wear;

/// <summary>The rate of one valve where its clearance at the check is known: N(Mean + Slope·(c - At), StandardDeviation²).</summary>
/// <param name="Mean">Mean rate where the clearance is At, mm per hour or km.</param>
/// <param name="Slope">What a millimetre more of clearance adds to the mean.</param>
/// <param name="At">A clearance, mm.</param>
/// <param name="StandardDeviation">Standard deviation of the rate where the clearance is known.</param>
public sealed record RateGivenClearance(double Mean, double Slope, double At, double StandardDeviation);

/// <summary>How long the clearances are to stay in band, and at what rates the valves wear.</summary>
public sealed record WearHorizon
{
    /// <summary>Makes a horizon.</summary>
    /// <param name="time">How long, hours or km, above 0.</param>
    /// <param name="diffusion">q, mm² per hour or km, above 0.</param>
    /// <param name="rates">The rate of each valve, in the engine's order.</param>
    /// <exception cref="ArgumentNullException"><paramref name="rates"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="time"/> or <paramref name="diffusion"/> is outside its range.</exception>
    public WearHorizon(double time, double diffusion, IEnumerable<RateGivenClearance> rates)
    {
        ArgumentNullException.ThrowIfNull(rates);
        Time = Guard.Within(time, double.Epsilon, double.MaxValue);
        Diffusion = Guard.Within(diffusion, double.Epsilon, double.MaxValue);
        Rates = [.. rates];
    }

    /// <summary>How long the clearances are to stay in band, hours or km.</summary>
    public double Time { get; }

    /// <summary>q, mm² per hour or km.</summary>
    public double Diffusion { get; }

    /// <summary>The rate of each valve, in the engine's order.</summary>
    public IReadOnlyList<RateGivenClearance> Rates { get; }

    /// <summary>For an engine without a past: every rate is what is usual for its side.</summary>
    /// <param name="engine">The engine.</param>
    /// <param name="wear">What wear is usual.</param>
    /// <param name="time">How long, hours or km, above 0.</param>
    /// <returns>The horizon.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="engine"/> or <paramref name="wear"/> is null.</exception>
    public static WearHorizon Usual(Engine engine, UsualWear wear, double time)
    {
        ArgumentNullException.ThrowIfNull(engine);
        ArgumentNullException.ThrowIfNull(wear);
        return new(time, wear.Diffusion, engine.Valves.Select(v => wear.RateOf(v.Side)).Select(r => new RateGivenClearance(r.Mean, 0, 0, r.StandardDeviation)));
    }

    /// <summary>For an engine with a past: what the past lets expect of each valve before the check is read.</summary>
    /// <param name="predicted">Each valve's predicted state.</param>
    /// <param name="wear">What wear is usual.</param>
    /// <param name="time">How long, hours or km, above 0.</param>
    /// <returns>The horizon.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="wear"/> is null.</exception>
    public static WearHorizon Known(IEnumerable<WearState> predicted, UsualWear wear, double time)
    {
        ArgumentNullException.ThrowIfNull(wear);
        return new(time, wear.Diffusion, predicted.Select(s =>
            new RateGivenClearance(s.Rate, s.RatePerClearance, s.Clearance, s.RateSpreadGivenClearance)));
    }
}
