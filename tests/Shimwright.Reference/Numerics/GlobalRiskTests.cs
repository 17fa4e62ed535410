using MathNet.Numerics.Distributions;
using MathNet.Numerics.Integration;
using Shimwright.Domain.Numerics;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Numerics;

/// <summary>
/// Risks of accepting what is out of tolerance, over everything that is made. Values from the public repository
/// sandialabs/suncal, commit d44c2cc1.
/// </summary>
[Proof(Formulas.Conformity, Evidence.Published, "Risks of accepting what is out: public repository sandialabs/suncal.")]
public class GlobalRiskTests
{
    // test/test_risk.py, test uncertainty a quarter of the process's (TUR 4), limits ±1: for a share of the process
    // that is in tolerance, false accepts in percent of everything, and in percent of what is accepted.
    [Theory]
    [InlineData(0.6, 4.83860326, 8.26008199)]
    [InlineData(0.7, 3.92234109, 5.72322042)]
    [InlineData(0.8, 2.85583037, 3.63227145)]
    [InlineData(0.9, 1.59995312, 1.79880430)]
    [InlineData(0.95, 0.87100925, 0.92389664)]
    [InlineData(0.99, 0.19991684, 0.20243866)]
    public void Between_FalseAcceptTable_GivesPublishedPercentages(double inTolerance, double falseAccept, double conditional)
    {
        double process = 1 / StandardNormal.Quantile((1 + inTolerance) / 2);
        double test = process / 4;
        double MadeAndAccepted(double x) =>
            StandardNormal.Density(x / process) / process * StandardNormal.Between((-1 - x) / test, (1 - x) / test);

        double outside = 2 * Integral(MadeAndAccepted, 1, 1 + (9 * test));
        double inside = Integral(MadeAndAccepted, -1, 1);

        Assert.Equal(falseAccept, 100 * outside, 1e-6);
        Assert.Equal(conditional, 100 * outside / (outside + inside), 1e-6);
    }

    // "doc/API Examples/Risk - Ball Bearing.ipynb", after JCGM 106:2012, 9.5.4: radial errors follow a gamma law of
    // shape 4 and scale 1/4 µm, T_U = 2 µm, u_m = 0.25 µm.
    [Fact]
    public void Cdf_BallBearings_GivePublishedConsumersRisk()
    {
        Assert.Equal(0.008019111884, ConsumersRisk(2), 1e-11);
    }

    // The same notebook: the acceptance limit that brings the consumer's risk down to 0.1 %.
    [Fact]
    public void Cdf_BallBearingsGuarded_GivePublishedAcceptanceLimit() =>
        Assert.Equal(0.001, ConsumersRisk(1.671828772), 1e-11);

    private static double ConsumersRisk(double acceptUpTo) =>
        Integral(x => Gamma.PDF(4, 4, x) * StandardNormal.Cdf((acceptUpTo - x) / 0.25), 2, 2 + (9 * 0.25));

    private static double Integral(Func<double, double> f, double from, double to) =>
        GaussLegendreRule.Integrate(f, from, to, 128);
}
