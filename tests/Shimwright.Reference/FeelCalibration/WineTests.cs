using Shimwright.Domain.FeelCalibration;
using Shimwright.Reference.Published;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.FeelCalibration;

/// <summary>
/// Ordered probit of ordinal's `wine` (data/published/ordinal-wine): rating on contact and temperature, two covariates,
/// five categories. Seven digits are published and reached; standard errors and log-likelihood were computed with numpy.
/// </summary>
[Proof(Formulas.Feel, Evidence.Published, "Ordered probit of the wine data, as R's ordinal publishes it: seven digits.")]
[Proof(Formulas.Calibration, Evidence.Published, "The same fit: coefficients published, standard errors computed in numpy.")]
public class WineTests
{
    [Theory]
    [PublishedFile("ordinal-wine/wine.csv")]
    public void Fit_Wine_GivesThePublishedEstimates(PublishedFile file)
    {
        OrderedProbitFit fit = OrderedProbit.Fit(
            [.. PublishedRows.Rows(file).Select(r => new OrderedObservation(
                [r.Has("contact", "yes"), r.Has("temp", "warm")], (int)r.Number("rating") - 1))],
            categories: 5);

        Assert.Equal(OrderedProbitStatus.Fitted, fit.Status);
        FitAssert.Values([0.8677435, 1.499375], fit.Coefficients, 1e-6);
        FitAssert.Values([-0.7732627, 0.7360215, 2.044680, 2.941345], fit.Thresholds, 1e-6);
        FitAssert.Errors([0.26690701, 0.29179039], fit.Coefficients, 1e-8);
        FitAssert.Errors([0.28286236, 0.24993882, 0.32182101, 0.38725928], fit.Thresholds, 1e-8);
        Assert.Equal(-85.76114836, fit.LogLikelihood, 1e-8);
    }
}
