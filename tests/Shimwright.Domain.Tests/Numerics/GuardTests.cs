using Shimwright.Domain.Numerics;
using Xunit;

namespace Shimwright.Domain.Tests.Numerics;

public class GuardTests
{
    [Theory]
    [InlineData(0.1)]
    [InlineData(0.3)]
    [InlineData(0.2)]
    public void Within_InRange_ReturnsTheNumber(double value) => Assert.Equal(value, Guard.Within(value, 0.1, 0.3));

    [Fact]
    public void Within_NegativeZero_IsZero() => Assert.Equal(0, Guard.Within(-0.0, 0, 1));

    [Theory]
    [InlineData(0.0999999)]
    [InlineData(0.3000001)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void Within_OutOfRange_NamesTheNumberAndTheRange(double width)
    {
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => Guard.Within(width, 0.1, 0.3));
        Assert.Equal("width", refusal.ParamName);
        Assert.Equal(width, refusal.ActualValue);

        // Written with a decimal point whatever the culture.
        Assert.Contains("width must lie in 0.1 to 0.3.", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Within_RangeWithoutEnds_StillRefusesWhatIsNoNumber()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Guard.Within(double.NaN, double.NegativeInfinity, double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>(() => Guard.Within(double.PositiveInfinity, 0, double.PositiveInfinity));
    }

    [Fact]
    public void Finite_AnyNumber_IsLetInAndNothingElse()
    {
        Assert.Equal(-1e300, Guard.Finite(-1e300));
        Assert.Throws<ArgumentOutOfRangeException>("value", () => Guard.Finite(double.NaN, "value"));
        Assert.Throws<ArgumentOutOfRangeException>("value", () => Guard.Finite(double.NegativeInfinity, "value"));
    }
}
