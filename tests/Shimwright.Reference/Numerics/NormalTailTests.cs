using Shimwright.Domain.Numerics;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Numerics;

/// <summary>ln Φ and Φ where they are nearly 0 or nearly 1.</summary>
[Proof(Formulas.Normal, Evidence.Published, "Tabulated tails of Φ and ln Φ; the sources stand at each value.")]
public class NormalTailTests
{
    // scipy, scipy/special/tests/test_ndtr.py, commit 01c8a0ec (values from mpmath). Near Φ = 1 a double holds
    // no more than 1e-16 of the logarithm.
    [Theory]
    [InlineData(-0.75, -1.4844482299196562)]
    [InlineData(-0.25, -0.9130617648111351)]
    [InlineData(0, -0.6931471805599453)]
    [InlineData(0.5, -0.3689464152886564)]
    [InlineData(1.5, -0.06914345561223398)]
    [InlineData(2.5, -0.006229025485860002)]
    [InlineData(3, -0.0013508099647481938)]
    [InlineData(4, -3.167174337748927e-05)]
    [InlineData(5, -2.866516129637636e-07)]
    [InlineData(7, -1.279812543886654e-12)]
    [InlineData(8, -6.220960574271786e-16)]
    public void LogCdf_ModerateArguments_GivePublishedLogarithm(double z, double published) =>
        Assert.Equal(published, StandardNormal.LogCdf(z), (1e-14 * Math.Abs(published)) + 3e-16);

    // The same file. Far out, -ln Φ(z) is Φ(-z) to all digits, so the published value is the lower tail itself:
    // from 16 to 37.1 on both sides of the argument at which LogCdf turns to its series.
    [Theory]
    [InlineData(10, 7.619853024160525e-24)]
    [InlineData(12, 1.776482112077679e-33)]
    [InlineData(14, 7.7935368191928e-45)]
    [InlineData(16, 6.388754400538087e-58)]
    [InlineData(16.15, 5.678084565148492e-59)]
    [InlineData(20.3, 6.429244467698346e-92)]
    [InlineData(21.4, 6.680402412553295e-102)]
    [InlineData(26.2, 1.328698078458869e-151)]
    [InlineData(30.9, 5.972288641838264e-210)]
    [InlineData(31.6, 1.846036234858162e-219)]
    [InlineData(32.8, 2.9440539964066835e-236)]
    [InlineData(34.9, 3.71721649450857e-267)]
    [InlineData(37.1, 1.4047119663106221e-301)]
    public void LogCdf_LowerTail_GivesPublishedTail(double z, double published)
    {
        Assert.Equal(1, StandardNormal.Cdf(-z) / published, 1e-12);
        Assert.Equal(Math.Log(published), StandardNormal.LogCdf(-z), 5e-12);
    }

    // GAUSS, function lncdfn2, examples of its reference page (public repository aptech/docs,
    // docs/CR-lncdfn2.rst): ln of the chance of an interval, in the middle and in the upper tail.
    [Theory]
    [InlineData(0, 1, -1.0748623268620716)]
    [InlineData(5, 6, -15.068446096529453)]
    public void Between_Intervals_GivePublishedLogarithm(double low, double high, double published) =>
        Assert.Equal(published, Math.Log(StandardNormal.Between(low, high)), 1e-13 * Math.Abs(published));

    [Fact]
    public void LogCdf_WhereItsSeriesTakesOver_HasNoStep()
    {
        // d ln Φ / dz = φ/Φ = 1/m(-z), with Mills' ratio m: |z| + 1/|z| - 2/|z|³ + … far out.
        const double slope = 30 + (1.0 / 30) - (2.0 / 27_000);

        double step = StandardNormal.LogCdf(-29.999999) - StandardNormal.LogCdf(-30.000001);

        Assert.Equal(2e-6 * slope, step, 1e-11);
    }
}
