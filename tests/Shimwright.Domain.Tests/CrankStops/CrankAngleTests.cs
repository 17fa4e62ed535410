using Shimwright.Domain.CrankStops;
using Xunit;

namespace Shimwright.Domain.Tests.CrankStops;

public class CrankAngleTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(719.5, 719.5)]
    [InlineData(720, 0)]
    [InlineData(1450, 10)]
    [InlineData(-10, 710)]
    [InlineData(-720, 0)]
    [InlineData(-1e-12, 0)]
    public void Wrap_AnyAngle_LiesInTheCycle(double angle, double wrapped) => Assert.Equal(wrapped, CrankAngle.Wrap(angle), 1e-12);

    [Theory]
    [InlineData(0, 360, 360)]
    [InlineData(600, 120, 240)]
    [InlineData(120, 600, 480)]
    [InlineData(5, 5, 0)]
    public void Turn_IsInRunningDirection(double from, double to, double turn) => Assert.Equal(turn, CrankAngle.Turn(from, to), 1e-12);

    [Fact]
    public void Wrap_WhatIsNoNumber_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => CrankAngle.Wrap(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => CrankAngle.Wrap(double.PositiveInfinity));
    }
}
