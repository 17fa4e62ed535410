using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;
using Shimwright.Domain.Numerics;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Numerics;

/// <summary>
/// A normal law fitted to values known only as intervals, as a gap is known between a blade that enters and one
/// that does not. scipy, scipy/stats/tests/test_continuous_fit_censored.py, test_norm, commit 0628db79, from
/// fitdistcens of R's fitdistrplus: mean 0.5919990 (0.1444432), sd 0.2868042 (0.1029451).
/// </summary>
[Proof(Formulas.Estimate, Evidence.Published, "A law fitted to intervals, as R's fitdistrplus publishes it.")]
public class CensoredNormalFitTests
{
    private const double Mean = 0.5919990, MeanError = 0.1444432, StandardDeviation = 0.2868042, SpreadError = 0.1029451;

    private static readonly (double Low, double High)[] Intervals =
        [(0.10, 0.20), (0.50, 0.55), (0.75, 0.90), (0.80, 0.95)];

    [Fact]
    public void Between_LikelihoodOfIntervals_IsGreatestAtThePublishedFit()
    {
        IObjectiveFunction objective = ObjectiveFunction.Value(p => -LogLikelihood(p[0], p[1]));
        Vector<double> start = Vector<double>.Build.Dense([0.5, 0.3]);

        Vector<double> fit = new NelderMeadSimplex(1e-15, 10_000).FindMinimum(objective, start).MinimizingPoint;

        Assert.Equal(Mean, fit[0], 2e-7);
        Assert.Equal(StandardDeviation, fit[1], 2e-7);
        // The maximum itself was computed in numpy.
        Assert.Equal(-9.80269872, LogLikelihood(fit[0], fit[1]), 5e-9);
    }

    [Fact]
    public void Density_GradientAtThePublishedFit_IsNought()
    {
        // Half a unit of the last published digit, times the information (1/0.144² and 1/0.103²), is below 5e-6.
        (double byMean, double bySpread) = Gradient(Mean, StandardDeviation);

        Assert.Equal(0, byMean, 5e-6);
        Assert.Equal(0, bySpread, 5e-6);
    }

    [Fact]
    public void Density_InformationAtThePublishedFit_GivesPublishedErrors()
    {
        const double h = 1e-5;
        (double mm, double ms) = Slope(Gradient(Mean + h, StandardDeviation), Gradient(Mean - h, StandardDeviation));
        (_, double ss) = Slope(Gradient(Mean, StandardDeviation + h), Gradient(Mean, StandardDeviation - h));
        double determinant = (mm * ss) - (ms * ms);

        Assert.Equal(MeanError, Math.Sqrt(-ss / determinant), 1e-5);
        Assert.Equal(SpreadError, Math.Sqrt(-mm / determinant), 1e-5);

        static (double, double) Slope((double A, double B) up, (double A, double B) down) =>
            ((up.A - down.A) / (2 * h), (up.B - down.B) / (2 * h));
    }

    private static double LogLikelihood(double mean, double spread) => spread <= 0
        ? double.NegativeInfinity
        : Intervals.Sum(i => Math.Log(StandardNormal.Between((i.Low - mean) / spread, (i.High - mean) / spread)));

    private static (double ByMean, double BySpread) Gradient(double mean, double spread)
    {
        (double byMean, double bySpread) = (0, 0);
        foreach ((double low, double high) in Intervals)
        {
            double a = (low - mean) / spread;
            double b = (high - mean) / spread;
            double chance = StandardNormal.Between(a, b);
            byMean -= (StandardNormal.Density(b) - StandardNormal.Density(a)) / (spread * chance);
            bySpread -= ((b * StandardNormal.Density(b)) - (a * StandardNormal.Density(a))) / (spread * chance);
        }

        return (byMean, bySpread);
    }
}
