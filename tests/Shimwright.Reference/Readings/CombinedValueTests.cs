using MathNet.Numerics.Statistics;
using Shimwright.Domain.Readings;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Readings;

/// <summary>
/// JCGM 100:2008 (GUM), 4.4.3: twenty readings of a temperature with mean 100.14 °C (100.145), s = 1.49 °C (1.489) and
/// s(mean) = 0.33 °C (0.333), as a public test file quotes the clause. Here each is a direct value of
/// standard uncertainty s; a tenth of the numbers, to stay below the greatest uncertainty that a value may have.
/// </summary>
[Proof(Formulas.Estimate, Evidence.Published, "JCGM 100:2008, 4.4.3: twenty readings of one value.")]
public class CombinedValueTests
{
    private const double Scale = 0.1;

    private static readonly double[] Readings =
    [
        96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07,
        100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
    ];

    [Fact]
    public void CombinedValue_GumTwentyReadings_GivesPublishedMeanAndItsUncertainty()
    {
        double s = Readings.StandardDeviation();
        var valve = new ValveReadings(values: Readings.Select(t => new DirectValue(Scale * t, Scale * s)));

        (double mean, double u) = valve.CombinedValue()!.Value;

        Assert.Equal(1.489, s, 0.0005);
        Assert.Equal(100.145, mean / Scale, 0.0005);
        Assert.Equal(0.333, u / Scale, 0.0005);
    }
}
