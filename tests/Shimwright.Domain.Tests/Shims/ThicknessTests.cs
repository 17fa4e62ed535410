using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Shims;

public class ThicknessTests
{
    [Theory]
    [InlineData(0.3)]
    [InlineData(2.62)]
    [InlineData(12)]
    public void Millimetres_WithinTheLimits_AreKept(double millimetres) =>
        Assert.Equal(millimetres, Made.Marked(millimetres).Millimetres);

    [Theory]
    [InlineData(0.2999)]
    [InlineData(12.0001)]
    [InlineData(262)]
    public void Millimetres_BeyondTheLimits_AreRefused(double millimetres) =>
        Refuses.OutOfRange("millimetres", millimetres, "0.3 to 12", () => Made.Marked(millimetres));

    [Fact]
    public void Millimetres_NotANumber_AreRefused() => Refuses.NotANumber("millimetres", Made.Marked);

    [Fact]
    public void By_Nothing_IsRefused() => Assert.Throws<ArgumentNullException>("by", () => new Thickness(2.5, null!));

    [Fact]
    public void Minus_SameInstrument_LosesTheSharedPart()
    {
        ThicknessDifference difference = new Thickness(2.60, Instrument.Calliper).Minus(new Thickness(2.52, Instrument.Calliper));
        Assert.Equal(0.08, difference.Millimetres, 1e-12);
        Assert.Equal(Math.Sqrt(2) * 0.006, difference.Uncertainty, 1e-15);
    }

    [Fact]
    public void Minus_TwoInstruments_AddsAllFourParts()
    {
        ThicknessDifference difference = new Thickness(2.50, Instrument.Calliper).Minus(Made.Measured(2.55));
        Assert.Equal(-0.05, difference.Millimetres, 1e-12);
        Assert.Equal(Math.Sqrt(36e-6 + 4e-6 + 100e-6 + 4e-6), difference.Uncertainty, 1e-15);
    }

    [Fact]
    public void Minus_Turned_ChangesTheSignOnly()
    {
        ThicknessDifference there = Made.Marked(2.6).Minus(Made.Measured(2.4));
        ThicknessDifference back = Made.Measured(2.4).Minus(Made.Marked(2.6));
        Assert.Equal(-there.Millimetres, back.Millimetres);
        Assert.Equal(there.Uncertainty, back.Uncertainty, 1e-18);
    }

    [Fact]
    public void Equality_SameNumberSameInstrument_IsTheSameThickness()
    {
        Assert.Equal(Made.Marked(2.5), Made.Marked(2.5));
        Assert.NotEqual(Made.Marked(2.5), Made.Measured(2.5));
    }
}
