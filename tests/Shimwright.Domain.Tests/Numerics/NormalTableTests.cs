using Shimwright.Domain.Numerics;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Numerics;

[Proof(Formulas.Normal, Evidence.Computed, "The table against the library at any argument.")]
public class NormalTableTests
{
    [Fact]
    public void Cdf_AnyArgument_IsThatOfTheLibraryToThreeInTenBillion()
    {
        double worst = 0;
        for (double z = -12; z < 12; z += 0.000_73)
        {
            worst = Math.Max(worst, Math.Abs(NormalTable.Cdf(z) - StandardNormal.Cdf(z)));
        }

        Assert.InRange(worst, 0, 3e-10);
    }

    [Theory]
    [InlineData(double.NegativeInfinity, 0)]
    [InlineData(-8.5, 0)]
    [InlineData(0, 0.5)]
    [InlineData(8.5, 1)]
    [InlineData(double.PositiveInfinity, 1)]
    public void Cdf_EndsAndMiddle_AreExact(double z, double expected) => Assert.Equal(expected, NormalTable.Cdf(z), 1e-15);
}
