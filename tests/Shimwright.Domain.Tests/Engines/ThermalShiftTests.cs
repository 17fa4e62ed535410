using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.Engines;

public class ThermalShiftTests
{
    [Theory]
    [InlineData(-40)]
    [InlineData(150)]
    public void Temperature_AtItsLimits_IsTaken(double temperature) =>
        Assert.Equal(temperature, new ThermalShift(temperature, null).Temperature);

    [Theory]
    [InlineData(-40.01)]
    [InlineData(150.01)]
    public void Temperature_BeyondItsLimits_IsRefused(double temperature) =>
        Refuses.OutOfRange("temperature", temperature, "-40 to 150", () => new ThermalShift(temperature, 0));

    [Fact]
    public void Temperature_NotANumber_IsRefused() => Refuses.NotANumber("temperature", x => new ThermalShift(x, 0));

    [Theory]
    [InlineData(70, 0.001, 0.05)]
    [InlineData(0, 0.001, -0.02)]
    [InlineData(70, -0.0004, -0.02)]
    [InlineData(20, 0.001, 0)]
    public void Millimetres_KnownKappa_IsTheGainAboveTwentyDegrees(double temperature, double kappa, double expected) =>
        Assert.Equal(expected, new ThermalShift(temperature, kappa).Millimetres, 1e-15);

    [Theory]
    [InlineData(30, false)]
    [InlineData(30.1, true)]
    [InlineData(10, false)]
    [InlineData(9.9, true)]
    public void IsDoubtful_UnknownKappa_FarFromTwentyDegrees(double temperature, bool isDoubtful)
    {
        Assert.Equal(isDoubtful, new ThermalShift(temperature, null).IsDoubtful);
        Assert.Equal(0, new ThermalShift(temperature, null).Millimetres);
        Assert.False(new ThermalShift(temperature, 0).IsDoubtful);
    }

    [Fact]
    public void None_IsTwentyDegreesAndKnown()
    {
        Assert.Equal(20, ThermalShift.None.Temperature);
        Assert.Equal(0, ThermalShift.None.Millimetres);
        Assert.False(ThermalShift.None.IsDoubtful);
    }
}
