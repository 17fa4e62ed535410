using MathNet.Numerics.LinearAlgebra;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.FeelCalibration;

/// <summary>
/// How far all three thresholds of a fit may be off together: the standard error of their mean. What they are off singly about
/// that mean makes one feel likelier than another; what they share moves every gap that these fingers will feel.
/// </summary>
internal static class CommonShift
{
    /// <summary>The standard error, mm.</summary>
    /// <param name="covariance">The covariance of the parameters, the three thresholds first.</param>
    /// <param name="trials">The trials that were fitted.</param>
    /// <param name="blade">Standard uncertainty of one blade's thickness, mm: one error for all trials of a blade, where the fit has a new one each time.</param>
    /// <returns>√(1ᵀΣ1/9 + blade²·Σ leaves·share²), at most what a profile takes.</returns>
    public static double Of(Matrix<double> covariance, IReadOnlyList<FeelTrial> trials, double blade)
    {
        const int thresholds = FeelLikelihood.Omega;
        double ofFit = covariance.SubMatrix(0, thresholds, 0, thresholds).Enumerate().Sum() / (thresholds * thresholds);
        double shares = trials.GroupBy(t => (Math.Round(t.Trial.Blade, 6), t.Trial.Leaves))
            .Sum(g => g.Key.Leaves * Squares.Of((double)g.Count() / trials.Count));
        return Math.Min(FeelProfile.GreatestDoubt, Math.Sqrt(ofFit + (Squares.Of(blade) * shares)));
    }
}
