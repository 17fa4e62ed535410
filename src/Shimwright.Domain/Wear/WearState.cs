using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Wear;

/// <summary>
/// What is known of one valve at one time: its clearance c and the rate r at which it loses clearance, jointly normal.
/// The default is a valve known exactly, at 0 with rate 0.
/// </summary>
/// <param name="Clearance">Expected clearance at 20 °C, mm.</param>
/// <param name="Rate">Expected loss per hour or km, mm.</param>
/// <param name="ClearanceVariance">Variance of c, mm².</param>
/// <param name="Covariance">Covariance of c and r.</param>
/// <param name="RateVariance">Variance of r.</param>
public readonly record struct WearState(
    double Clearance, double Rate, double ClearanceVariance, double Covariance, double RateVariance)
{
    /// <summary>Standard deviation of the clearance, mm.</summary>
    public double ClearanceSpread => Math.Sqrt(ClearanceVariance);

    /// <summary>Standard deviation of the rate.</summary>
    public double RateSpread => Math.Sqrt(Math.Max(0, RateVariance));

    /// <summary>What a millimetre more of clearance says about the rate: the regression of r on c.</summary>
    public double RatePerClearance => ClearanceVariance > 0 ? Covariance / ClearanceVariance : 0;

    /// <summary>Standard deviation of the rate where the clearance is known.</summary>
    public double RateSpreadGivenClearance => Math.Sqrt(Math.Max(0, RateVariance - (RatePerClearance * Covariance)));

    /// <summary>A valve whose rate is only what is usual.</summary>
    /// <param name="clearance">Expected clearance, mm.</param>
    /// <param name="variance">Its variance, mm².</param>
    /// <param name="rates">What rates are usual.</param>
    /// <returns>The state, clearance and rate independent.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="rates"/> is null.</exception>
    public static WearState At(double clearance, double variance, RateDistribution rates)
    {
        ArgumentNullException.ThrowIfNull(rates);
        return new(clearance, rates.Mean, variance, 0, Squares.Of(rates.StandardDeviation));
    }

    /// <summary>The state after some running: c falls by r·Δ and strays by N(0, q·Δ).</summary>
    /// <param name="time">Δ, hours or km, 0 or more.</param>
    /// <param name="diffusion">q, mm² per hour or km.</param>
    /// <returns>The predicted state.</returns>
    public WearState After(double time, double diffusion) => new(
        Clearance - (Rate * time),
        Rate,
        ClearanceVariance - (2 * time * Covariance) + (time * time * RateVariance) + (diffusion * time),
        Covariance - (time * RateVariance),
        RateVariance);

    /// <summary>The state after a change: a shim adds its doubt; a screw leaves its own alone, and nothing that ties it to the rate.</summary>
    /// <param name="change">The change.</param>
    /// <returns>The state.</returns>
    public WearState Adjusted(ClearanceChange change) => this with
    {
        Clearance = Clearance + change.Shift,
        ClearanceVariance = change.IsSet ? Squares.Of(change.Uncertainty) : ClearanceVariance + Squares.Of(change.Uncertainty),
        Covariance = change.IsSet ? 0 : Covariance,
    };

    /// <summary>
    /// The state after readings that leave the clearance with these moments. The rate follows by its regression on the
    /// clearance (assumed-density filtering: P. S. Maybeck, Stochastic Models, Estimation, and Control, vol. 2, 1982,
    /// section 12.7; with normal readings the filter of R. E. Kalman, J. Basic Eng. 82 (1960) 35).
    /// </summary>
    /// <param name="mean">Mean of the clearance, mm.</param>
    /// <param name="variance">Its variance, mm².</param>
    /// <returns>The state.</returns>
    public WearState Read(double mean, double variance)
    {
        double k = RatePerClearance;
        return new(
            mean,
            Rate + (k * (mean - Clearance)),
            variance,
            k * variance,
            RateVariance + (k * k * (variance - ClearanceVariance)));
    }

    /// <summary>The state after readings of a valve whose seat or parts were worked on: they say nothing about the rate.</summary>
    /// <param name="mean">Mean of the clearance, mm.</param>
    /// <param name="variance">Its variance, mm².</param>
    /// <returns>The state, clearance and rate independent.</returns>
    public WearState Reworked(double mean, double variance) => this with { Clearance = mean, ClearanceVariance = variance, Covariance = 0 };

    /// <summary>What this state lets expect of the clearance.</summary>
    /// <returns>Mean and standard deviation.</returns>
    public ExpectedClearance Expected() => new(Clearance, ClearanceSpread);
}
