using MathNet.Numerics.Statistics;
using Shimwright.Domain.Numerics;
using Xunit;

namespace Shimwright.Reference.Numerics;

/// <summary>
/// JCGM 100:2008, H.2: resistance, reactance and impedance from five readings of voltage, current and phase, taken
/// together and so correlated. Readings and results as the public repositories sandialabs/suncal
/// (test/test_GUMH2.csv, test/test_examples.py, commit d44c2cc1) and MSLNZ/GTC (test/test_type_a.py) quote them.
/// </summary>
public class CorrelatedPartsTests
{
    private static readonly double[] Volts = [5.007, 4.994, 5.005, 4.990, 4.999];
    private static readonly double[] Amperes = [19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3];
    private static readonly double[] Radians = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];

    private static readonly double V = Volts.Mean(), I = Amperes.Mean(), Phase = Radians.Mean();

    [Fact]
    public void Combine_GumH2Resistance_GivesPublishedUncertainty()
    {
        double resistance = V / I * Math.Cos(Phase);

        double u = Combine(resistance / V, -resistance / I, -V / I * Math.Sin(Phase));

        Assert.Equal(127.732, resistance, 0.0005);
        Assert.Equal(0.071, u, 0.0005);
        Assert.Equal(0.0710714, u, 1e-7); // computed in numpy from the same readings
    }

    [Fact]
    public void Combine_GumH2Reactance_GivesPublishedUncertainty()
    {
        double reactance = V / I * Math.Sin(Phase);

        double u = Combine(reactance / V, -reactance / I, V / I * Math.Cos(Phase));

        Assert.Equal(219.847, reactance, 0.0005);
        Assert.Equal(0.295, u, 0.001); // 0.2956 before rounding
        Assert.Equal(0.2955817, u, 1e-7); // computed in numpy from the same readings
    }

    [Fact]
    public void Combine_GumH2Impedance_GivesPublishedUncertainty()
    {
        double impedance = V / I;

        double u = Combine(impedance / V, -impedance / I, 0);

        Assert.Equal(254.260, impedance, 0.0005);
        Assert.Equal(0.236, u, 0.0005);
        Assert.Equal(0.2363361, u, 1e-7); // computed in numpy from the same readings
    }

    [Fact]
    public void Combine_WithoutCorrelation_IsTheRootOfTheSumOfSquares() =>
        Assert.Equal(
            Squares.CombinedStandardUncertainty(2 * 0.3, -1 * 0.5, 0.7),
            CorrelatedParts.Combine([2, -1, 1], [0.3, 0.5, 0.7], new double[,] { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } }),
            1e-15);

    private static double Combine(double byVolts, double byAmperes, double byRadians)
    {
        double vi = Correlation.Pearson(Volts, Amperes);
        double vp = Correlation.Pearson(Volts, Radians);
        double ip = Correlation.Pearson(Amperes, Radians);
        return CorrelatedParts.Combine(
            [byVolts, byAmperes, byRadians],
            [OfMean(Volts), OfMean(Amperes), OfMean(Radians)],
            new double[,] { { 1, vi, vp }, { vi, 1, ip }, { vp, ip, 1 } });
    }

    private static double OfMean(double[] readings) => readings.StandardDeviation() / Math.Sqrt(readings.Length);
}
