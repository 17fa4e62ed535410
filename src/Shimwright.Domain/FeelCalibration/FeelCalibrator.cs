using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.FeelCalibration;

/// <summary>
/// Fits a person's fingers: the three thresholds and the spread of <see cref="FeelProfile"/> by maximum likelihood, with the
/// blades' own spread and the slips counted as the profile counts them. Slips and blades are taken as known.
/// </summary>
public static class FeelCalibrator
{
    /// <summary>The fewest trials that are fitted.</summary>
    public const int FewestTrials = 12;

    /// <summary>Trials that are suggested.</summary>
    private const int Suggested = 3;

    /// <summary>Fits the fingers, or says why not; in both cases what to try next.</summary>
    /// <param name="trials">Trials on gaps of known size.</param>
    /// <param name="known">A profile whose slip and blade uncertainty are taken as known; the default where left out.</param>
    /// <param name="atHand">The blades of the set, mm; null where only those of the trials are known.</param>
    /// <returns>The result.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="trials"/> is null.</exception>
    public static FeelCalibrationResult Fit(IReadOnlyList<FeelTrial> trials, FeelProfile? known = null, IReadOnlyList<double>? atHand = null)
    {
        ArgumentNullException.ThrowIfNull(trials);
        known ??= FeelProfile.Default;
        var likelihood = new FeelLikelihood(known.Slip, known.Blade);
        Vector<double> usual = FeelLikelihood.PointOf(FeelProfile.Default);
        Feel[] missing = [.. Enum.GetValues<Feel>().Except(trials.Select(t => t.Trial.Feel))];
        if (trials.Count < FewestTrials || missing.Length > 0)
        {
            FeelStatus why = trials.Count < FewestTrials ? FeelStatus.TooFewTrials : FeelStatus.FeelMissing;
            return new(why, null, missing, MissingFirst(missing, trials, usual, likelihood, atHand));
        }

        Climb top = Starts(trials, likelihood, usual)
            .Select(start => NewtonClimb.From(start, p => likelihood.Of(trials, p)))
            .MaxBy(c => c.At.Value)!;
        return Judge(top, trials, likelihood, usual, atHand);
    }

    private static FeelCalibrationResult Judge(
        Climb top, IReadOnlyList<FeelTrial> trials, FeelLikelihood likelihood, Vector<double> usual, IReadOnlyList<double>? atHand)
    {
        double spread = Math.Exp(top.Point[FeelLikelihood.Omega]);
        FeelStatus status =
            spread < FeelProfile.LeastSpread ? FeelStatus.Separated
            : !top.IsTop || !AreFingers(top.Point, spread) ? FeelStatus.NotFingers
            : FeelStatus.Fitted;
        if (status != FeelStatus.Fitted)
        {
            // What was felt still says where the feels change; how sharply they do is taken as usual.
            Vector<double> about = status == FeelStatus.Separated && AreFingers(top.Point, FeelProfile.Default.StandardDeviation) ? top.Point.Clone() : usual;
            about[FeelLikelihood.Omega] = usual[FeelLikelihood.Omega];
            return new(status, null, [], NextFeelTrial.Suggest(trials, about, likelihood, Suggested, atHand));
        }

        return new(status, Describe(top, trials, likelihood, usual), [], NextFeelTrial.Suggest(trials, top.Point, likelihood, Suggested, atHand));
    }

    private static FeelFit Describe(Climb top, IReadOnlyList<FeelTrial> trials, FeelLikelihood likelihood, Vector<double> usual)
    {
        Matrix<double> covariance = top.At.Information.Inverse();
        double spread = Math.Exp(top.Point[FeelLikelihood.Omega]);
        double[] values = [top.Point[0], top.Point[1], top.Point[2], spread];
        double[] defaults = [usual[0], usual[1], usual[2], FeelProfile.Default.StandardDeviation];
        string[] names = ["firm", "light", "loose", "spread"];
        FeelParameter[] parameters = new FeelParameter[FeelLikelihood.Parameters];
        for (int i = 0; i < parameters.Length; i++)
        {
            double error = Math.Sqrt(covariance[i, i]);
            (double low, double high) = ProfileInterval.Of(top, i, error, trials, likelihood);
            bool isSpread = i == FeelLikelihood.Omega;
            parameters[i] = isSpread
                ? new(names[i], values[i], error * spread, Math.Exp(low), Math.Exp(high), defaults[i])
                : new(names[i], values[i], error, low, high, defaults[i]);
        }

        double statistic = Math.Max(0, 2 * (top.At.Value - likelihood.Of(trials, usual)!.Value));
        return new(
            new FeelProfile(values[0], values[1], values[2], spread, likelihood.Slip, likelihood.Blade, CommonShift.Of(covariance, trials, likelihood.Blade)),
            parameters,
            top.At.Value,
            new FeelComparison(statistic, 1 - ChiSquared.CDF(FeelComparison.Degrees, statistic)));
    }

    private static bool AreFingers(Vector<double> p, double spread) =>
        p.Take(FeelLikelihood.Omega).All(t => t is >= FeelProfile.LeastThreshold and <= FeelProfile.GreatestThreshold)
        && spread is >= FeelProfile.LeastSpread and <= FeelProfile.GreatestSpread;

    /// <summary>
    /// Where the climbs start: the default fingers; thresholds midway between neighbouring feels; and the ordered probit on
    /// the play, whose threshold over slope is a threshold and whose 1/slope is the whole spread.
    /// </summary>
    private static IEnumerable<Vector<double>> Starts(IReadOnlyList<FeelTrial> trials, FeelLikelihood likelihood, Vector<double> usual)
    {
        yield return usual;
        double[] middles = [.. Enum.GetValues<Feel>().Select(f => trials.Where(t => t.Trial.Feel == f).Select(t => t.Play).Order().ToArray())
            .Select(plays => plays[plays.Length / 2])];
        if (middles.Zip(middles.Skip(1)).All(m => m.First < m.Second))
        {
            foreach (double factor in new[] { 0.5, 1, 2 })
            {
                double spread = FeelProfile.Default.StandardDeviation * factor;
                yield return Vector<double>.Build.Dense([.. middles.Zip(middles.Skip(1), (a, b) => (a + b) / 2), Math.Log(spread)]);
            }
        }

        OrderedProbitFit probit = OrderedProbit.Fit([.. trials.Select(t => new OrderedObservation([t.Play], (int)t.Trial.Feel))], 4);
        if (probit.Status == OrderedProbitStatus.Fitted && probit.Coefficients[0].Value > 1)
        {
            double slope = probit.Coefficients[0].Value;
            double spread = Math.Max(FeelProfile.LeastSpread * 2, Math.Sqrt(Math.Max(0, (1 / (slope * slope)) - Squares.Of(likelihood.Blade))));
            yield return Vector<double>.Build.Dense([.. probit.Thresholds.Select(t => t.Value / slope), Math.Log(spread)]);
        }
    }

    /// <summary>A trial for each missing feel, in the middle of where the default fingers have it; then what says most.</summary>
    private static IReadOnlyList<NextFeelTrial> MissingFirst(
        Feel[] missing, IReadOnlyList<FeelTrial> trials, Vector<double> usual, FeelLikelihood likelihood, IReadOnlyList<double>? atHand)
    {
        IReadOnlyList<NextFeelTrial> most = NextFeelTrial.Suggest(trials, usual, likelihood, Suggested, atHand);
        return trials.Count < FewestTrials ? most : [.. missing.Select(f => NextFeelTrial.For(f, trials, usual, atHand)), .. most.Take(1)];
    }
}
