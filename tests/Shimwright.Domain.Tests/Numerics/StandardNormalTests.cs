using Shimwright.Domain.Numerics;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Numerics;

[Proof(Formulas.Normal, Evidence.Computed, "Symmetry, slope and far tails.")]
public class StandardNormalTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(0.3)]
    [InlineData(1.7)]
    [InlineData(5)]
    [InlineData(12)]
    public void Cdf_BothSides_AddUpToOne(double z)
    {
        Assert.Equal(1, StandardNormal.Cdf(z) + StandardNormal.Cdf(-z), 1e-15);
        Assert.Equal(StandardNormal.Density(z), StandardNormal.Density(-z));
    }

    [Theory]
    [InlineData(-6)]
    [InlineData(-1)]
    [InlineData(0.4)]
    [InlineData(3)]
    public void Cdf_Slope_IsTheDensity(double z)
    {
        double slope = (StandardNormal.Cdf(z + 1e-4) - StandardNormal.Cdf(z - 1e-4)) / 2e-4;
        Assert.Equal(1, slope / StandardNormal.Density(z), 1e-6);
    }

    [Fact]
    public void Cdf_FarTails_KeepTheirFigures()
    {
        // Mills' ratio lies between z/(z² + 1) and 1/z.
        foreach (double z in (double[])[8, 15, 25, 36])
        {
            double ratio = StandardNormal.Cdf(-z) / StandardNormal.Density(z);
            Assert.InRange(ratio, z / ((z * z) + 1), 1 / z);
        }

        Assert.Equal(0, StandardNormal.Cdf(-60));
        Assert.Equal(1, StandardNormal.Cdf(60));
    }

    [Theory]
    [InlineData(-2, 1)]
    [InlineData(0.5, 0.75)]
    [InlineData(-9, -8.5)]
    public void Between_Mirrored_IsTheSame(double low, double high)
    {
        double between = StandardNormal.Between(low, high);
        Assert.Equal(1, StandardNormal.Between(-high, -low) / between, 1e-12);
        Assert.Equal(between, StandardNormal.Cdf(high) - StandardNormal.Cdf(low), 1e-15);
    }

    [Fact]
    public void Between_UpperTail_DoesNotCancel()
    {
        // 1 - 1 would be nothing at all.
        Assert.Equal(1, StandardNormal.Between(9, 10) / StandardNormal.Between(-10, -9), 1e-12);
        Assert.True(StandardNormal.Between(9, 10) > 0);
    }

    [Theory]
    [InlineData(1e-10)]
    [InlineData(0.025)]
    [InlineData(0.3)]
    [InlineData(0.5)]
    [InlineData(0.975)]
    public void Quantile_OfACdf_IsWhereItCameFrom(double probability) =>
        Assert.Equal(1, StandardNormal.Cdf(StandardNormal.Quantile(probability)) / probability, 1e-9);

    [Fact]
    public void LogCdf_WhereTheCdfIsAPlainNumber_IsItsLogarithm()
    {
        for (double z = -29; z < 6; z += 0.37)
        {
            Assert.Equal(Math.Log(StandardNormal.Cdf(z)), StandardNormal.LogCdf(z), 1e-12);
        }
    }

    [Fact]
    public void LogCdf_WhereTheSeriesTakesOver_HasNoStep()
    {
        double above = StandardNormal.LogCdf(-30 + 1e-9);
        double below = StandardNormal.LogCdf(-30 - 1e-9);

        // The slope there is the inverse of Mills' ratio, about 30.
        Assert.Equal(2e-9 * 30.03, above - below, 1e-9);
    }

    [Theory]
    [InlineData(-40)]
    [InlineData(-200)]
    [InlineData(-1e4)]
    public void LogCdf_BeyondUnderflow_StaysBetweenTheBoundsOfMillsRatio(double z)
    {
        double x = -z;
        double logDensity = (-0.5 * x * x) - (0.5 * Math.Log(2 * Math.PI));
        double slack = 1e-15 * x * x;
        Assert.InRange(StandardNormal.LogCdf(z), logDensity + Math.Log(x / ((x * x) + 1)) - slack, logDensity - Math.Log(x) + slack);
    }
}
