using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Planning;

/// <summary>Screw adjusters: turns by geometry, with figures that are remembered or published for a few of them.</summary>
[Proof(Formulas.Screw, Evidence.Published, "Turns by geometry; some figures published, some remembered, marked there.")]
public class ScrewTurnTests
{
    private const double Inch = 25.4;

    /// <summary>Pitch mm, lever ratio, change of clearance mm, turns in degrees, and half a unit of their last digit.</summary>
    public static TheoryData<double, double, double, double, double> Examples { get; } = new()
    {
        // From memory, and geometry: pitch 1.0 mm, 0.008 in is 73.15° (0.203 turn).
        { 1.0, 1, 0.008 * Inch, 73.15, 0.005 },
        // From memory, and geometry: a 5/16-18 thread, 0.008 in is 51.84° with the exact pitch of 1/18 in.
        { Inch / 18, 1, 0.008 * Inch, 51.84, 0.005 },
        // Geometry: a turn moves the gap by pitch times ratio. M8 x 1 at a ratio of 1.5, 0.10 mm is 24°.
        { 1.0, 1.5, 0.10, 24, 0.005 },
    };

    [Theory]
    [MemberData(nameof(Examples))]
    public void Plan_TooMuchClearance_TurnsByTheAngle(double pitch, double ratio, double change, double degrees, double within) =>
        Assert.Equal(-degrees, 360 * Turns(pitch, ratio, measured: 0.30, wanted: 0.30 - change), within);

    // Towards more clearance the estimate leans on what is expected of worn valves by a few hundredths of a micrometre,
    // so the angle is held to 0.1 %.
    [Theory]
    [MemberData(nameof(Examples))]
    public void Plan_TooLittleClearance_TurnsByTheAngleTheOtherWay(
        double pitch, double ratio, double change, double degrees, double within) =>
        Assert.Equal(degrees, 360 * Turns(pitch, ratio, measured: 0.10, wanted: 0.10 + change), within + (0.001 * degrees));

    // "Help 35: Valve adjustment", classicenglishbikes.com: with 26 threads an inch, taken as 25, a turn is 0.040 in, half a
    // turn 0.020 in and a flat of a square head 0.010 in. The exact turn is 25.4 / 26 = 0.977 mm: 4 % less.
    [Fact]
    public void ClearancePerTurn_TwentySixThreadsAnInch_IsThePublishedTravelLessFourPerCent()
    {
        double turn = ScrewSetting.ClearancePerTurn(new Valvetrain(Adjuster.Screw, 1, Inch / 26));

        Assert.Equal(0.977, turn, 0.0005);
        Assert.Equal(0.040, turn / Inch, 0.04 * 0.040);
        Assert.Equal(0.020, turn / 2 / Inch, 0.04 * 0.020);
        Assert.Equal(0.010, turn / 4 / Inch, 0.04 * 0.010);
    }

    private static double Turns(double pitch, double ratio, double measured, double wanted)
    {
        var band = new ClearanceBand(wanted - 0.03, wanted + 0.03);
        var train = new Valvetrain(Adjuster.Screw, ratio, pitch);
        PlannedValve valve = Planner
            .Plan(new PlanRequest(OneValveEngine.Check(band, OneValveEngine.Measured(measured), train), []))
            .Chosen.Valves[0];
        return valve.Turns!.Value;
    }
}
