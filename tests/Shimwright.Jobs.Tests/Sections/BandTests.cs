using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Sections;

public class BandTests
{
    private const string Band = "$.engine.valves[1].band";

    [Theory]
    [InlineData("[0, 0.005]")]
    [InlineData("[0.2, 0.205]")]
    [InlineData("[2.995, 3]")]
    [InlineData("[0, 3]")]
    public void Read_BandAtItsLimits_IsTaken(string band) => Reading.Takes(WithBand(band));

    [Theory]
    [InlineData("[0.2, 0.2049]", Band, "a band is at least 0.005 mm wide")]
    [InlineData("[0.26, 0.2]", Band, "the lower limit comes first")]
    [InlineData("[0.2, 0.2]", Band, "the lower limit comes first")]
    [InlineData("[-0.0001, 0.2]", Band + "[0]", "allowed is 0 to 3 mm")]
    [InlineData("[0.2, 3.0001]", Band + "[1]", "allowed is 0 to 3 mm")]
    [InlineData("[0.2, 26]", Band + "[1]", "0.26 meant?")]
    [InlineData("[0.2]", Band, "found 1 entries; allowed are exactly 2")]
    [InlineData("[0.1, 0.2, 0.3]", Band, "found 3 entries; allowed are exactly 2")]
    [InlineData("[]", Band, "found 0 entries; allowed are exactly 2")]
    public void Read_BandThatIsNone_IsRefused(string band, string path, string words) =>
        Reading.Refuses(WithBand(band), path, words);

    [Fact]
    public void Read_BandWithTwoWrongEnds_NamesBoth()
    {
        ParsedJob reading = Reading.Of(WithBand("[-1, 5]").Text);
        Assert.Equal([Band + "[0]", Band + "[1]"], reading.Problems.Select(p => p.Path));
    }

    [Fact]
    public void Read_ReadingsAtAValveWithAWrongBand_AreNotBlamedForIt() =>
        Reading.Refuses(Sample.Shims().Set(Band, "[0.9, 0.8]"), Band, "the lower limit comes first", JobPurpose.Plan);

    /// <summary>The sample without what was read at the valve, which only suits its own band.</summary>
    private static JobDraft WithBand(string band) =>
        Sample.Shims().Remove("$.check.readings[1]").Remove("$.recheck").Set(Band, band);
}
