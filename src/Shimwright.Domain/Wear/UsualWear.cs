using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Wear;

/// <summary>How fast the valves of one kind lose clearance: a normal law, per unit of the engine's clock.</summary>
public sealed record RateDistribution
{
    /// <summary>Makes a law.</summary>
    /// <param name="mean">Mean rate, mm of clearance lost per hour or km; negative where clearance is gained.</param>
    /// <param name="spread">Standard deviation of the rate between valves, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="mean"/> is not finite, or <paramref name="spread"/> is outside its range.</exception>
    public RateDistribution(double mean, double spread)
    {
        Mean = Guard.Finite(mean);
        StandardDeviation = Guard.Within(spread, 0, double.MaxValue);
    }

    /// <summary>Mean rate, mm of clearance lost per hour or km.</summary>
    public double Mean { get; }

    /// <summary>Standard deviation of the rate between valves.</summary>
    public double StandardDeviation { get; }
}

/// <summary>
/// What wear is usual for an engine: the card's numbers, or what a fleet of the same card has taught. The defaults and the
/// unrest of 0.005 mm an interval are common practice, no source.
/// </summary>
public sealed record UsualWear
{
    /// <summary>The longest interval that is taken, hours or km.</summary>
    public const double LongestInterval = 10_000_000;

    /// <summary>Standard deviation of what one interval adds to or takes from a valve's own trend, mm.</summary>
    private const double UnrestPerInterval = 0.005;

    /// <summary>
    /// What a valve loses in an interval, and how much that differs between valves, where nothing is known of an engine, mm: sixteen
    /// valves that start in the middle of a band of 0.06 then reach the maker's interval with a chance of 0.05 that one is out.
    /// Common practice, no source.
    /// </summary>
    public const double OrdinaryLoss = 0.008, OrdinarySpread = 0.006;

    private readonly RateDistribution _intake;
    private readonly RateDistribution _exhaust;

    /// <summary>Makes usual wear from an engine card.</summary>
    /// <param name="interval">The maker's interval between checks, hours or km, above 0 to 10,000,000.</param>
    /// <param name="lossPerInterval">Clearance that a valve loses in an interval on average, mm.</param>
    /// <param name="spread">Standard deviation of that loss between valves, mm, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="interval"/>, <paramref name="lossPerInterval"/> or <paramref name="spread"/> is outside its range.</exception>
    public UsualWear(double interval, double lossPerInterval = OrdinaryLoss, double spread = OrdinarySpread)
    {
        Interval = Guard.Within(interval, double.Epsilon, LongestInterval);
        _intake = _exhaust = new RateDistribution(Guard.Finite(lossPerInterval) / interval, Guard.Within(spread, 0, double.MaxValue) / interval);
    }

    private UsualWear(double interval, RateDistribution intake, RateDistribution exhaust)
    {
        Interval = interval;
        _intake = intake;
        _exhaust = exhaust;
    }

    /// <summary>For an engine all of whose checks were made at one reading of its clock: nothing wears in no time.</summary>
    public static UsualWear None { get; } = new(1, 0, 0);

    /// <summary>The maker's interval between checks, hours or km.</summary>
    public double Interval { get; }

    /// <summary>q, the variance that a unit of the clock adds to a clearance, mm² per hour or km.</summary>
    public double Diffusion => Squares.Of(UnrestPerInterval) / Interval;

    /// <summary>The law of the rates of a side.</summary>
    /// <param name="side">The side.</param>
    /// <returns>Mean and spread.</returns>
    public RateDistribution RateOf(ValveSide side) => side == ValveSide.Intake ? _intake : _exhaust;

    /// <summary>The same card with the rates of one side as a fleet has taught them.</summary>
    /// <param name="side">The side.</param>
    /// <param name="rates">Its law.</param>
    /// <returns>Usual wear with that law.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="rates"/> is null.</exception>
    public UsualWear With(ValveSide side, RateDistribution rates)
    {
        ArgumentNullException.ThrowIfNull(rates);
        return side == ValveSide.Intake ? new(Interval, rates, _exhaust) : new(Interval, _intake, rates);
    }
}
