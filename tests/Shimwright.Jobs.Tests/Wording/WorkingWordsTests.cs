using System.Globalization;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Tests.Wording;

public class WorkingWordsTests
{
    private static readonly ValveReadings Tight = PlannedLine.Read(0.05, 0.005);

    [Fact]
    public void Of_ValveLeftAlone_SaysWhy() => Assert.Equal(
        "0.149 is in 0.120-0.180 with a chance of 1.000: left alone", WorkingWords.Of(Line(PlannedLine.Bucket, PlannedLine.Read(0.15, 0.005))));

    [Fact]
    public void Of_StrandedValve_SaysThatNothingDoesBetter() => Assert.Equal(
        "0.051 is in 0.120-0.180 with a chance of 0.00 only, and nothing at hand does better", WorkingWords.Of(Line(PlannedLine.Bucket, Tight)));

    [Fact]
    public void Of_ShimFitted_ShowsWantedAndGiven() => Assert.Equal(
        "wanted 2.600 + (0.051 - 0.150) = 2.501; 2.500 gives 0.051 + (2.600 - 2.500) = 0.151, standard deviation 0.013",
        WorkingWords.Of(Line(PlannedLine.Bucket, Tight, 2.50)));

    [Fact]
    public void Of_FingerFollower_ShowsTheRatio() => Assert.Equal(
        "wanted 2.600 + (0.051 - 0.150) / 1.5 = 2.534; 2.525 gives 0.051 + 1.5 x (2.600 - 2.525) = 0.163, standard deviation 0.018",
        WorkingWords.Of(Line(new Valvetrain(Adjuster.FingerFollower, 1.5), Tight, 2.525)));

    [Fact]
    public void Of_Screw_ShowsTurnsAndFlats() => Assert.Equal(
        "(0.150 - 0.051) / (1.2 x 0.750) a turn = +0.110 turn, 0.7 flats wider (a flat is a sixth of a turn); "
            + "set by feel to 0.150, standard deviation 0.011",
        WorkingWords.Of(Line(new Valvetrain(Adjuster.Screw, 1.2, 0.75), Tight)));

    // The band is 0.12-0.18: 0.15 is its middle.
    [Theory]
    [InlineData("0.15", "; set it with the 0.150 blade, to a light drag")]
    [InlineData("0.10 0.14 0.20", "; set it with the 0.140 blade, to a light drag")]
    [InlineData("0.13 0.17", "; set it so that the 0.130 blade goes in and the 0.170 blade does not")]
    [InlineData("0.05 0.10", "; set it with the 0.100 blade, to a light drag")]
    [InlineData("", "standard deviation 0.011")]
    public void Of_Screw_NamesTheBladeToSetItWith(string blades, string words)
    {
        double[] own = [.. blades.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(b => double.Parse(b, CultureInfo.InvariantCulture))];
        Assert.EndsWith(words, WorkingWords.Of(Line(new Valvetrain(Adjuster.Screw, 1.2, 0.75), Tight), blades: own), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_LengthsAskedForOtherwise_AreWrittenSo() => Assert.Equal(
        "5.8 is in 4.7-7.1 with a chance of 1.000: left alone",
        WorkingWords.Of(
            Line(PlannedLine.Bucket, PlannedLine.Read(0.15, 0.005)), mm => (mm / 0.0254).ToString("0.0", CultureInfo.InvariantCulture)));

    [Theory]
    [InlineData(0.5, "3.0 flats wider")]
    [InlineData(-0.25, "1.5 flats tighter")]
    [InlineData(0, "0.0 flats wider")]
    public void Flats_Turns_AreSixthsWithTheirDirection(double turns, string expected) =>
        Assert.Equal(expected, WorkingWords.Flats(turns));

    private static PlannedValve Line(Valvetrain train, ValveReadings reading, params double[] drawer) =>
        PlannedLine.Plan(train, PlannedLine.Drawer(drawer), (reading, 2.60)).Valves[0];
}
