using Shimwright.Domain.CamTiming;
using Xunit;

namespace Shimwright.Domain.Tests.CamTiming;

public class SprocketTests
{
    [Fact]
    public void ReadMark_OffsetOfTeethAndABit_IsTakenApart()
    {
        foreach (int teeth in new[] { 20, 34, 40, 65, 130 })
        {
            var sprocket = new Sprocket(teeth);
            for (int whole = -3; whole <= 3; whole++)
            {
                foreach (double bit in new[] { -0.45, -0.2, 0, 0.2, 0.45 })
                {
                    double degrees = (whole + bit) * 360.0 / teeth;
                    MarkReading reading = sprocket.ReadMark(30 * Math.Tan(double.DegreesToRadians(degrees)), 30);
                    Assert.Equal(degrees, reading.CamDegrees, 1e-9);
                    Assert.Equal(whole, reading.Teeth);
                    Assert.Equal(bit * 360.0 / teeth, reading.LeftOver, 1e-9);
                }
            }
        }
    }

    // atan(4.2 / 30) = 7.9696 degrees: one tooth of 9 degrees, 1.0304 short of it; the other way all signs turn.
    [Theory]
    [InlineData(4.2, 7.9696, 1, -1.0304)]
    [InlineData(-4.2, -7.9696, -1, 1.0304)]
    [InlineData(0, 0, 0, 0)]
    [InlineData(2, 3.8141, 0, 3.8141)]
    public void ReadMark_FortyTeeth_NamesTheNearestTooth(double offset, double cam, int teeth, double left)
    {
        MarkReading reading = new Sprocket(40).ReadMark(offset, 30);
        Assert.Equal(cam, reading.CamDegrees, 5e-5);
        Assert.Equal(teeth, reading.Teeth);
        Assert.Equal(left, reading.LeftOver, 5e-5);
    }

    [Fact]
    public void ReadMark_OutOfReach_IsRefused()
    {
        var sprocket = new Sprocket(40);
        Refuses.OutOfRange("offset", 301, "-300 to 300", () => sprocket.ReadMark(301, 30));
        Refuses.OutOfRange("radius", 0, "1 to 1000", () => sprocket.ReadMark(0, 0));
        Refuses.NotANumber("offset", offset => sprocket.ReadMark(offset, 30));
        Refuses.NotANumber("radius", radius => sprocket.ReadMark(1, radius));
    }

    [Theory]
    [InlineData(7)]
    [InlineData(401)]
    public void Sprocket_TeethOutOfRange_AreRefused(int teeth) =>
        Refuses.OutOfRange("teeth", teeth, "8 to 400", () => new Sprocket(teeth));

    [Fact]
    public void RimAngle_IsTheShareOfTheCircumference()
    {
        Assert.Equal(90, Sprocket.RimAngle(50 * Math.PI, 200), 1e-9);
        Assert.Equal(-36, Sprocket.RimAngle(-20 * Math.PI, 200), 1e-9);
    }

    [Theory]
    [InlineData(14, 14, 0)]
    [InlineData(15, 14, 1)]
    [InlineData(12, 14, -2)]
    public void PinCount_MorePins_MeanTheSecondCamshaftIsAhead(int found, int right, int advanced) =>
        Assert.Equal(advanced, new PinCount(found, right).TeethAdvanced);
}
