using Shimwright.Domain.Numerics;
using Shimwright.Domain.Shims;
using Shimwright.Reference.Numerics;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Shims;

/// <summary>
/// A difference of two thicknesses against the full rule for correlated parts (JCGM 100:2008, equation 16): two
/// thicknesses from one instrument share its systematic part, so their correlation is u_s² / (u_r² + u_s²)
/// (two values that share one correction: JCGM 100:2008, F.1.2.3, from memory).
/// </summary>
[Proof(Formulas.Difference, Evidence.Published, "JCGM 100:2008, equation 16, with the correlation of F.1.2.3 (from memory).")]
public class ThicknessDifferenceTests
{
    public static TheoryData<string, double, double> Instruments { get; } = new()
    {
        { Instrument.Marked.Name, Instrument.Marked.Random, Instrument.Marked.Systematic },
        { Instrument.Calliper.Name, Instrument.Calliper.Random, Instrument.Calliper.Systematic },
        { Instrument.Micrometer.Name, Instrument.Micrometer.Random, Instrument.Micrometer.Systematic },
        { "comparator", 0.0005, 0.02 },
    };

    [Theory]
    [MemberData(nameof(Instruments))]
    public void Minus_OneInstrument_AgreesWithTheRuleForCorrelatedParts(string name, double repeatability, double shared)
    {
        var by = new Instrument(name, repeatability, shared);
        double u = Squares.CombinedStandardUncertainty(repeatability, shared);
        double correlation = shared * shared / (u * u);

        ThicknessDifference difference = new Thickness(2.80, by).Minus(new Thickness(3.00, by));

        Assert.Equal(-0.20, difference.Millimetres, 1e-12);
        Assert.Equal(
            CorrelatedParts.Combine([1, -1], [u, u], new[,] { { 1, correlation }, { correlation, 1 } }),
            difference.Uncertainty,
            1e-9);
    }

    [Theory]
    [MemberData(nameof(Instruments))]
    public void Minus_TwoInstruments_AgreesWithTheRuleForIndependentParts(string name, double repeatability, double shared)
    {
        var by = new Instrument(name, repeatability, shared);
        var other = new Instrument("another", 0.003, 0.004);

        double u = new Thickness(2.80, by).Minus(new Thickness(3.00, other)).Uncertainty;

        Assert.Equal(
            CorrelatedParts.Combine(
                [1, -1], [Squares.CombinedStandardUncertainty(repeatability, shared), 0.005], new double[,] { { 1, 0 }, { 0, 1 } }),
            u,
            1e-12);
    }

    // GUM H.1, in micrometres of a shim: the unlike parts of two instruments combine as 5.8, 3.9 and 6.7 nm do, to 9.7.
    [Fact]
    public void Minus_TwoInstrumentsWithTheGumsParts_GivesPublishedUncertainty()
    {
        var gauge = new Thickness(2.80, new Instrument("gauge", 0.0058, 0.0039));
        var mark = new Thickness(3.00, new Instrument("mark", 0.0067, 0));

        Assert.Equal(0.0097, gauge.Minus(mark).Uncertainty, 0.00005);
    }
}
