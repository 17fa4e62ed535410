using Shimwright.Domain.Numerics;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Numerics;

/// <summary>
/// The inverse Gaussian law (first passage of a Wiener process) is Φ(a) + e^{2λ/μ}·Φ(b), where the factor overflows
/// long before the product does: in logarithms it stands on <see cref="StandardNormal.LogCdf"/> alone.
/// </summary>
[Proof(Formulas.Passage, Evidence.Published, "The law in its far tails; sources at each value.")]
public class InverseGaussianTests
{
    // cran/statmod 1.5.0, tests/statmod-Tests.Rout.save: pinvgauss, lower and upper, in logarithms
    // (dispersion = 1/λ).
    [Theory]
    [InlineData(0.1, 2, 0.5, -10.79152787332, -0.0000205732764)]
    [InlineData(1, 3, 0.5, -1.25365465102, -0.3361157861191)]
    [InlineData(3.1, 1, 0.5, -0.01896246007, -3.974760287861)]
    public void LogCdf_StatmodExamples_GivePublishedLogarithms(
        double x, double mean, double dispersion, double lower, double upper)
    {
        Assert.Equal(lower, LogLower(x, mean, 1 / dispersion), 1e-11);
        Assert.Equal(upper, LogUpper(x, mean, 1 / dispersion), 1e-12);
    }

    // The same output: pinvgauss(1; mean 1, dispersion 1) and (1; 2, 1).
    [Theory]
    [InlineData(1, 0.6681020012)]
    [InlineData(2, 0.4901383399)]
    public void LogCdf_StatmodExamples_GivePublishedChance(double mean, double published) =>
        Assert.Equal(published, Math.Exp(LogLower(1, mean, 1)), 5e-11);

    // scipy, scipy/stats/tests/test_distributions.py, TestInvgauss (λ = 1; after R's statmod): logcdf, logsf, sf.
    [Fact]
    public void LogCdf_FarTails_GivePublishedLogarithms()
    {
        Assert.Equal(-5003.87872590367, LogLower(0.0001, 1.05, 1), 1e-10);
        Assert.Equal(-56.1467092416426, LogUpper(110, 1.05, 1), 1e-10);
        Assert.Equal(1, Math.Exp(LogUpper(110, 1.05, 1)) / 4.12851625944048e-25, 1e-10);
    }

    // The same tests, where the chance itself is published. The last two rows have e^{2λ/μ} = e^20000.
    [Theory]
    [InlineData(0.001, 1.05, 4.65246506892667e-219)]
    [InlineData(0.00009, 0.0001, 2.9458022894924e-26)]
    [InlineData(0.000102, 0.0001, 0.976445540507925)]
    public void LogCdf_LowerTail_GivesPublishedChance(double x, double mean, double published) =>
        Assert.Equal(1, Math.Exp(LogLower(x, mean, 1)) / published, 1e-10);

    private static double LogLower(double x, double mean, double shape)
    {
        (double near, double far) = Parts(x, mean, shape);
        double top = Math.Max(near, far);
        return top + Math.Log(Math.Exp(near - top) + Math.Exp(far - top));
    }

    private static double LogUpper(double x, double mean, double shape)
    {
        double root = Math.Sqrt(shape / x);
        double above = StandardNormal.LogCdf(-root * ((x / mean) - 1));
        (_, double far) = Parts(x, mean, shape);
        return above + Math.Log(-double.ExpM1(far - above));
    }

    private static (double Near, double Far) Parts(double x, double mean, double shape)
    {
        double root = Math.Sqrt(shape / x);
        return (
            StandardNormal.LogCdf(root * ((x / mean) - 1)),
            (2 * shape / mean) + StandardNormal.LogCdf(-root * ((x / mean) + 1)));
    }
}
