using MathNet.Numerics.RootFinding;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Wear;

/// <summary>What one valve's checks alone say of its rate.</summary>
/// <param name="Rate">mm per hour or km.</param>
/// <param name="Uncertainty">Its standard uncertainty, above 0.</param>
public readonly record struct RateEvidence(double Rate, double Uncertainty)
{
    /// <summary>
    /// What the checks added to what was usual: the posterior of the rate with the prior divided out. Null where they
    /// said nothing.
    /// </summary>
    /// <param name="state">The state after the checks.</param>
    /// <param name="usual">What was usual before them, its spread above 0.</param>
    /// <returns>The evidence.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="usual"/> is null.</exception>
    public static RateEvidence? Of(WearState state, RateDistribution usual)
    {
        ArgumentNullException.ThrowIfNull(usual);
        double before = 1 / Squares.Of(usual.StandardDeviation);
        double precision = (1 / state.RateVariance) - before;
        return double.IsFinite(precision) && precision > LeastGain * before
            ? new(((state.Rate / state.RateVariance) - (usual.Mean * before)) / precision, 1 / Math.Sqrt(precision))
            : null;
    }

    private const double LeastGain = 1e-6;
}

/// <summary>
/// The law of the rates of one side over a fleet of engines of one card, by maximum likelihood: each valve's evidence is
/// N(rate, uncertainty²) about its own rate, and the rates are N(mean, spread²) (empirical Bayes: B. Efron and C. Morris,
/// J. Am. Stat. Assoc. 70 (1975) 311). The spread may be 0.
/// </summary>
public static class PooledRates
{
    /// <summary>Engines that are needed, and intervals between checks that each of them must have.</summary>
    public const int LeastEngines = 3, LeastIntervals = 2;

    /// <summary>How much wider than usual the rates are held possible while a fleet is asked, so that it is not told what to say.</summary>
    private const double Wider = 4;

    /// <summary>How wide they are held at the least, mm an interval, so that a fleet that wears much faster than its card is heard.</summary>
    private const double LeastWidth = 0.08;

    private const int ScanSteps = 400;

    /// <summary>The law of a side over a fleet; null while too few engines have been checked often enough.</summary>
    /// <param name="fleet">Engines of one card: their checks, oldest first.</param>
    /// <param name="side">The side.</param>
    /// <param name="card">What the card holds usual.</param>
    /// <returns>Mean and spread, or null.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="fleet"/> or <paramref name="card"/> is null.</exception>
    public static RateDistribution? Of(IEnumerable<IReadOnlyList<WearCheck>> fleet, ValveSide side, UsualWear card)
    {
        ArgumentNullException.ThrowIfNull(fleet);
        ArgumentNullException.ThrowIfNull(card);
        return Of([.. fleet.Select(e => EvidenceOf(e, side, card))]);
    }

    /// <summary>The law of a side from what each engine says of it; null while too few engines say something.</summary>
    /// <param name="fleet">The evidence of each engine.</param>
    /// <returns>Mean and spread, or null.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="fleet"/> is null.</exception>
    public static RateDistribution? Of(IReadOnlyList<IReadOnlyList<RateEvidence>> fleet)
    {
        ArgumentNullException.ThrowIfNull(fleet);
        return fleet.Count(e => e.Count > 0) < LeastEngines ? null : Fit([.. fleet.SelectMany(e => e)]);
    }

    /// <summary>What an engine's valves of a side say of their rates; nothing where it has not been checked often enough.</summary>
    /// <param name="checks">Its checks, oldest first.</param>
    /// <param name="side">The side.</param>
    /// <param name="card">What the card holds usual.</param>
    /// <returns>The evidence of each valve that says something.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="checks"/> or <paramref name="card"/> is null.</exception>
    public static IReadOnlyList<RateEvidence> EvidenceOf(IReadOnlyList<WearCheck> checks, ValveSide side, UsualWear card)
    {
        ArgumentNullException.ThrowIfNull(checks);
        ArgumentNullException.ThrowIfNull(card);
        if (!HasEnough(checks))
        {
            return [];
        }

        RateDistribution usual = card.RateOf(side);
        double width = Math.Max(Wider * usual.StandardDeviation, Math.Max(Math.Abs(usual.Mean), LeastWidth / card.Interval));
        var wide = new RateDistribution(usual.Mean, width);
        EngineWear engine = WearFilter.Follow(checks, card.With(side, wide));
        return [.. engine.Now.Where((_, v) => engine.Engine.Valves[v].Side == side).Select(state => RateEvidence.Of(state, wide)).OfType<RateEvidence>()];
    }

    /// <summary>Whether an engine has been checked often enough to count.</summary>
    /// <param name="checks">Its checks, oldest first.</param>
    public static bool HasEnough(IReadOnlyList<WearCheck> checks) =>
        checks.Select(c => c.Clock).Distinct().Count() > LeastIntervals;

    /// <summary>The law that makes the evidence likeliest.</summary>
    /// <param name="evidence">Two valves at least.</param>
    /// <returns>Mean and spread.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="evidence"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException">There is no second valve in <paramref name="evidence"/>.</exception>
    public static RateDistribution Fit(IReadOnlyList<RateEvidence> evidence)
    {
        ArgumentNullException.ThrowIfNull(evidence);
        ArgumentOutOfRangeException.ThrowIfLessThan(evidence.Count, 2, nameof(evidence));
        // A fleet of thousands says as many things, and each is gone through hundreds of times.
        RateEvidence[] all = [.. evidence];
        double mean = evidence.Average(e => e.Rate);
        double greatest = 4 * (evidence.Average(e => Squares.Of(e.Rate - mean)) + evidence.Min(e => Squares.Of(e.Uncertainty)));
        double best = 0, bestLog = LogLikelihood(evidence, 0), below = 0;
        double smallest = 1e-6 * evidence.Min(e => Squares.Of(e.Uncertainty));
        double ratio = Math.Pow(greatest / smallest, 1.0 / ScanSteps), slopeBelow = Slope(all, 0);
        for (double variance = smallest; variance <= greatest * ratio; variance *= ratio)
        {
            // Where the slope falls through 0 there is a maximum; of several the highest counts.
            double slope = Slope(all, variance);
            if (slopeBelow > 0 && slope <= 0)
            {
                double peak = Brent.FindRoot(v => Slope(all, v), below, variance, 1e-13 * variance, 200);
                double log = LogLikelihood(evidence, peak);
                (best, bestLog) = log > bestLog ? (peak, log) : (best, bestLog);
            }

            (below, slopeBelow) = (variance, slope);
        }

        return new RateDistribution(MeanAt(all, best), Math.Sqrt(best));
    }

    /// <summary>ln of the likelihood at a variance of the rates, the mean at its best.</summary>
    internal static double LogLikelihood(IReadOnlyList<RateEvidence> evidence, double variance)
    {
        double mean = MeanAt([.. evidence], variance);
        return evidence.Sum(e => -0.5 * (Math.Log(2 * Math.PI * Total(e, variance)) + (Squares.Of(e.Rate - mean) / Total(e, variance))));
    }

    private static double MeanAt(RateEvidence[] evidence, double variance)
    {
        double rates = 0, weights = 0;
        foreach (RateEvidence e in evidence)
        {
            double weight = 1 / Total(e, variance);
            rates += weight * e.Rate;
            weights += weight;
        }

        return rates / weights;
    }

    /// <summary>The derivative of the log likelihood by the variance; the best mean drops out of it.</summary>
    private static double Slope(RateEvidence[] evidence, double variance)
    {
        double mean = MeanAt(evidence, variance), sum = 0;
        foreach (RateEvidence e in evidence)
        {
            double weight = 1 / Total(e, variance);
            sum += ((Squares.Of(e.Rate - mean) * weight) - 1) * weight / 2;
        }

        return sum;
    }

    private static double Total(RateEvidence e, double variance) => variance + Squares.Of(e.Uncertainty);
}
