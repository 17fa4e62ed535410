using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.Adjusting;

public class LeverageTests
{
    [Fact]
    public void AtTheGap_AndAtTheShim_UndoEachOther()
    {
        var finger = Leverage.Of(new Valvetrain(Adjuster.FingerFollower, 1.6));
        Assert.Equal(0.08, finger.AtTheGap(0.05), 1e-15);
        Assert.Equal(0.05, finger.AtTheShim(0.08), 1e-15);
        Assert.Equal(0.05, new Leverage(1).AtTheGap(0.05));
    }

    [Theory]
    [InlineData(1, 2.41)]
    [InlineData(1.5, 2.44)]
    public void Wanted_TightValve_IsAThinnerShimByWhatIsMissingAtTheShim(double ratio, double wanted) =>
        Assert.Equal(wanted, new Leverage(ratio).Wanted(2.50, 0.06, 0.15), 1e-12);

    [Theory]
    [InlineData(0.0999)]
    [InlineData(5.0001)]
    public void Ratio_BeyondTheLimitsOfAValveTrain_IsRefused(double ratio)
    {
        Refuses.OutOfRange("ratio", ratio, "0.1 to 5", () => new Leverage(ratio));
        Refuses.NotANumber("ratio", x => new Leverage(x));
    }
}
