using Shimwright.Domain.Adjusting;
using Xunit;

namespace Shimwright.Domain.Tests.Adjusting;

public class SeatingTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(0.05)]
    public void Seating_UpToATwentiethOfAMillimetre_IsTaken(double millimetres) =>
        Assert.Equal(millimetres, new Seating(millimetres).StandardDeviation);

    [Theory]
    [InlineData(-0.001)]
    [InlineData(0.0501)]
    public void Seating_BeyondItsLimits_IsRefusedByName(double millimetres)
    {
        Refuses.OutOfRange("standardDeviation", millimetres, "0 to 0.05", () => new Seating(millimetres));
        Refuses.NotANumber("standardDeviation", x => new Seating(x));
    }

    [Fact]
    public void ChangeUncertainty_SeatingAndDifference_AddInQuadratureAboveALeast()
    {
        Assert.Equal(0.005, Seating.Usual.ChangeUncertainty(0.003), 1e-15);
        Assert.Equal(0.0002, new Seating(0).ChangeUncertainty(0));
        Assert.Equal(Math.Sqrt(0.000116), Seating.Usual.ScrewUncertainty, 1e-15);
    }
}
