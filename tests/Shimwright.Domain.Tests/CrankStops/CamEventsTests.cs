using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.CrankStops;

public class CamEventsTests
{
    [Fact]
    public void OnSide_CountsFromTheOwnCylindersCompression()
    {
        Assert.Equal(new OffHeel(350, 240), new CamEvents(10, 50).OnSide(ValveSide.Intake));
        Assert.Equal(new OffHeel(130, 240), new CamEvents(50, 10).OnSide(ValveSide.Exhaust));
    }

    [Fact]
    public void Duration_EventsOnTheOtherSideOfTheDeadCentre_IsShorter() => Assert.Equal(200, new CamEvents(-15, 35).Duration);

    [Theory]
    [InlineData(-180, 1, true)]
    [InlineData(180, 180, true)]
    [InlineData(180.1, 0, false)]
    [InlineData(0, -180.1, false)]
    [InlineData(-100, -80, false)]
    [InlineData(-100, -79, true)]
    [InlineData(double.NaN, 0, false)]
    public void ArePossible_IsWhatTheConstructorTakes(double opens, double closes, bool possible)
    {
        Assert.Equal(possible, CamEvents.ArePossible(opens, closes));
        Exception? refusal = Record.Exception(() => new CamEvents(opens, closes));
        Assert.Equal(possible, refusal is null);
        Assert.True(refusal is null or ArgumentOutOfRangeException);
    }
}
