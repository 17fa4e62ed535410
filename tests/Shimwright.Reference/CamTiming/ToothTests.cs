using Shimwright.Domain.CamTiming;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.CamTiming;

/// <summary>What one tooth of a camshaft's gear is, as manuals print it.</summary>
[Proof(Formulas.Timing, Evidence.Published, "What a tooth is, as manuals print it.")]
public class ToothTests
{
    // TM 5-3895-382-24: one tooth of the camshaft's gear shows as 23 mm on a crank pulley of 203 mm, as 35 on 310, as 37 on 327.
    [Theory]
    [InlineData(23, 203, 12.98)]
    [InlineData(35, 310, 12.94)]
    [InlineData(37, 327, 12.97)]
    public void RimAngle_OneToothOnThreePulleys_IsThePrintedAngle(double distance, double diameter, double degrees) =>
        Assert.Equal(degrees, Sprocket.RimAngle(distance, diameter), 0.005);

    // The three agree with one gear: 55 or 56 teeth, well within the manual's tolerance of a mark, 2.5 degrees.
    [Fact]
    public void CrankDegreesPerTooth_GearOfThatTooth_AgreesWithAllThreePulleys()
    {
        double[] printed = [12.98, 12.94, 12.97];
        int teeth = (int)Math.Round(720 / printed.Average());
        Assert.InRange(teeth, 55, 56);
        Assert.All(printed, p => Assert.Equal(p, new Sprocket(teeth).CrankDegreesPerTooth, 0.15));
    }

    // TM 5-3820-256-24-5 p. 32: one tooth out on a gear train is about 11 crank degrees; geometry gives about 65 teeth.
    [Fact]
    public void CrankDegreesPerTooth_SixtyFiveTeeth_IsAboutThePrintedAngle()
    {
        Assert.Equal(11, new Sprocket(65).CrankDegreesPerTooth, 0.1);
        Assert.Equal(new Sprocket(65).CrankDegreesPerTooth, 2 * new Sprocket(65).CamDegreesPerTooth, 1e-12);
    }

    // From memory: it is said that a tooth is 5 to 10 crank degrees. No usual sprocket, 34 to 50 teeth (common practice, no
    // source), has so little; geometry is preferred.
    [Theory]
    [InlineData(34)]
    [InlineData(40)]
    [InlineData(50)]
    public void CrankDegreesPerTooth_UsualSprockets_AreMoreThanIsSaid(int teeth) =>
        Assert.True(new Sprocket(teeth).CrankDegreesPerTooth > 10);
}
