using Shimwright.Domain.FeelCalibration;
using Shimwright.Reference.Published;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.FeelCalibration;

/// <summary>
/// Ordered probit of MASS `housing` (data/published/mass-housing): satisfaction on influence, type and contact, six
/// covariates, three categories, 72 weighted rows. Three digits are published and reached; the rest was computed with numpy.
/// </summary>
[Proof(Formulas.Feel, Evidence.Published, "Ordered probit of the housing data, as R's MASS publishes it: three digits.")]
public class HousingTests
{
    private static readonly string[] Satisfaction = ["Low", "Medium", "High"];

    [Theory]
    [PublishedFile("mass-housing/housing.csv")]
    public void Fit_Housing_GivesThePublishedEstimates(PublishedFile file)
    {
        OrderedProbitFit fit = Fit(file);

        FitAssert.Values([0.346, 0.783, -0.348, -0.218, -0.664, 0.222], fit.Coefficients, 0.0005);
        FitAssert.Values([-0.300, 0.427], fit.Thresholds, 0.0005);
        FitAssert.Errors([0.0641, 0.0764, 0.0723, 0.0948, 0.0918, 0.0581], fit.Coefficients, 0.00005);
        FitAssert.Errors([0.076, 0.076], fit.Thresholds, 0.0005);
        Assert.Equal(3479.689, -2 * fit.LogLikelihood, 0.0005);
    }

    [Theory]
    [PublishedFile("mass-housing/housing.csv")]
    public void Fit_Housing_AgreesWithNumpyToEightDigits(PublishedFile file)
    {
        OrderedProbitFit fit = Fit(file);

        FitAssert.Values([0.34642276, 0.78291464, -0.34753675, -0.21788753, -0.66417349, 0.22238583], fit.Coefficients, 1.5e-8);
        FitAssert.Values([-0.29982792, 0.42672084], fit.Thresholds, 1.5e-8);
        FitAssert.Errors([0.06413706, 0.07642620, 0.07229093, 0.09476607, 0.09180004, 0.05812267], fit.Coefficients, 1e-8);
        FitAssert.Errors([0.07615373, 0.07640434], fit.Thresholds, 1e-8);
        Assert.Equal(-1739.8444213, fit.LogLikelihood, 1e-7);
    }

    private static OrderedProbitFit Fit(PublishedFile file)
    {
        OrderedProbitFit fit = OrderedProbit.Fit(
            [.. PublishedRows.Rows(file).Select(r => new OrderedObservation(
                [
                    r.Has("Infl", "Medium"), r.Has("Infl", "High"), r.Has("Type", "Apartment"), r.Has("Type", "Atrium"),
                    r.Has("Type", "Terrace"), r.Has("Cont", "High"),
                ],
                Array.IndexOf(Satisfaction, r["Sat"]),
                r.Number("Freq")))],
            Satisfaction.Length);
        Assert.Equal(OrderedProbitStatus.Fitted, fit.Status);
        return fit;
    }
}
