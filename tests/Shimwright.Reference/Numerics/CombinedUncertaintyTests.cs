using Shimwright.Domain.Numerics;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Numerics;

/// <summary>
/// Root sums of squares with published results. JCGM 100:2008 (GUM) and EA-4/02 as public test files quote them
/// clause by clause; full digits from the public repository MSLNZ/GTC (test/test_uncertain_real_dof.py, commit 1c165fce).
/// </summary>
[Proof(Formulas.Budget, Evidence.Published, "JCGM 100:2008 (GUM) and EA-4/02, worked examples; full digits from the public repository MSLNZ/GTC.")]
public class CombinedUncertaintyTests
{
    // GUM H.1: the difference of two end gauges: 5.8 nm (mean of five), 3.9 nm (random) and 6.7 nm (systematic
    // effects of the comparator) make 9.7 nm.
    [Fact]
    public void Combine_GumH1Difference_Gives97Nanometres()
    {
        double u = Squares.CombinedStandardUncertainty(5.8, 3.9, 6.7);

        Assert.Equal(9.7, u, 0.05);
        Assert.Equal(9.68194195397, u, 1e-11);
    }

    // GUM H.1: contributions of 25, 9.7, 2.9 and 16.6 nm make u_c² = 1002 nm² and u_c = 32 nm.
    [Fact]
    public void Combine_GumH1Length_Gives32Nanometres()
    {
        double u = Squares.CombinedStandardUncertainty(25, 9.7, 2.9, 16.6);

        Assert.Equal(1002, u * u, 1.5); // the published square is of the unrounded parts
        Assert.Equal(32, u, 0.5);
        Assert.Equal(31.6637674111, Squares.CombinedStandardUncertainty(25, 9.68194195397, 2.88675134595, 16.5988202392), 1e-9);
    }

    // GUM G.4.1: relative uncertainties of 0.25, 0.57 and 0.82 % make 1.03 %.
    [Fact]
    public void Combine_GumG41_Gives103Percent() =>
        Assert.Equal(1.03, Squares.CombinedStandardUncertainty(0.25, 0.57, 0.82), 0.005);

    // EA-4/02 S2, calibration of a weight of 10 kg: 22.5, 8.66, 14.4, 5.77 and 5.77 mg make 29.2 mg; U = 58 mg.
    [Fact]
    public void Combine_Ea402Weight_Gives292Milligrams()
    {
        double u = Squares.CombinedStandardUncertainty(22.5, 8.66, 14.4, 5.77, 5.77);

        Assert.Equal(29.2, u, 0.1); // 29.27 before rounding
        Assert.Equal(58, 2 * u, 0.6);
    }

    // JCGM 101:2008 (Supplement 1 to the GUM), table 2: the sum of four standard normal values has u = 2.0 and a
    // 95 % interval of ±3.92, as the public repository sandialabs/suncal (test/test_examples.py) quotes it.
    [Fact]
    public void Combine_FourStandardNormals_GivePublishedInterval()
    {
        double u = Squares.CombinedStandardUncertainty(1, 1, 1, 1);

        Assert.Equal(2.0, u, 1e-15);
        Assert.Equal(3.92, u * StandardNormal.Quantile(0.975), 0.005);
    }
}
