using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Readings;

/// <summary>
/// The resistors of JCGM 106:2012, 9.5 (see ConformityTests for where the figures come from), read as clearances:
/// 1499 Ω taken off, an ohm for a millimetre. What a clearance is known to be takes the place of what is made, and the
/// error of a change that of the measurement.
/// </summary>
[Proof(Formulas.Conformity, Evidence.Published, "The resistors of JCGM 106:2012, 9.5, read as clearances on the grid.")]
public class DistributionConformityTests
{
    private static readonly ClearanceBand Tolerance = new(0.80, 1.20), Acceptance = new(0.82, 1.18);

    [Fact]
    public void InBand_Resistors_IsThePublishedChanceOfConformity() =>
        Assert.Equal(0.904419295, Made(Tolerance).InBand, 1e-7);

    // Accepted is what conforms, less what is rejected wrongly, and what does not, accepted wrongly.
    [Theory]
    [InlineData(true, 0.904419295 - 0.069026510 + 0.009878292)]
    [InlineData(false, 0.904419295 - 0.037207800 + 0.018942207)]
    public void InBandAfter_Resistors_IsThePublishedChanceOfAcceptance(bool guarded, double published)
    {
        ClearanceDistribution made = Made(guarded ? Acceptance : Tolerance);

        Assert.Equal(published, made.InBandAfter(ClearanceChange.By(0, 0.04)), 1e-7);
        Assert.Equal(published, made.After(ClearanceChange.By(0, 0.04)).InBand, 1e-7);
    }

    private static ClearanceDistribution Made(ClearanceBand band)
    {
        const double spread = 0.12;
        UniformGrid grid = UniformGrid.Spanning(1 - (9 * spread), 1 + (9 * spread), 0.002);
        double[] density = Array.ConvertAll(grid.Points(), x => StandardNormal.Density((x - 1) / spread));
        return new ClearanceDistribution(grid, band, density, new double[grid.Count]);
    }
}
