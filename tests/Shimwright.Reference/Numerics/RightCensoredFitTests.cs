using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;
using Shimwright.Domain.Numerics;
using Xunit;

namespace Shimwright.Reference.Numerics;

/// <summary>
/// A lognormal law fitted to lives of which 59 had not ended: locomotive controls, thousands of miles to failure.
/// The SAS output on page 279 of the reliability chapter that scipy's test_lognorm cites
/// (math.montana.edu/jobo/st528/documents/relc.pdf; scipy/stats/tests/test_continuous_fit_censored.py, commit
/// 0628db79): location 5.1169, scale 0.7055.
/// </summary>
public class RightCensoredFitTests
{
    private const int Running = 59;
    private const double RunTo = 135;

    private static readonly double[] Failed =
    [
        22.5, 37.5, 46.0, 48.5, 51.5, 53.0, 54.5, 57.5, 66.5, 68.0, 69.5, 76.5, 77.0, 78.5, 80.0, 81.5, 82.0, 83.0,
        84.0, 91.5, 93.5, 102.5, 107.0, 108.5, 112.5, 113.5, 116.0, 117.0, 118.5, 119.0, 120.0, 122.5, 123.0, 127.5,
        131.0, 132.5, 134.0,
    ];

    [Fact]
    public void LogCdf_LikelihoodOfUnendedLives_IsGreatestAtThePublishedFit()
    {
        IObjectiveFunction objective = ObjectiveFunction.Value(p => -LogLikelihood(p[0], p[1]));
        Vector<double> start = Vector<double>.Build.Dense([4.5, 1]);

        Vector<double> fit = new NelderMeadSimplex(1e-14, 10_000).FindMinimum(objective, start).MinimizingPoint;

        Assert.Equal(5.1169, fit[0], 1e-4);
        Assert.Equal(0.7055, fit[1], 1e-4);
    }

    private static double LogLikelihood(double location, double scale) => scale <= 0
        ? double.NegativeInfinity
        : Failed.Sum(x => Math.Log(StandardNormal.Density((Math.Log(x) - location) / scale) / scale))
            + (Running * StandardNormal.LogCdf((location - Math.Log(RunTo)) / scale));
}
