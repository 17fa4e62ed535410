using System.Globalization;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Sections;

public class LeverTests
{
    [Theory]
    [InlineData("finger-follower", "", 1 / 1.4)]
    [InlineData("finger-follower", "cam", 1 / 1.4)]
    [InlineData("finger-follower", "valve", 1)]
    [InlineData("screw", "", 1)]
    [InlineData("screw", "valve", 1)]
    [InlineData("screw", "cam", 1 / 1.4)]
    [InlineData("screw", "push-rod", 1.4)]
    [InlineData("screw", "push-rod cam", 1)]
    public void Read_LeverRatio_IsBroughtToTheGap(string valvetrain, string ends, double ratio)
    {
        JobDraft draft = With(valvetrain).Set("$.engine.leverRatio", "1.4");
        foreach (string end in ends.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            draft = draft.Set(end == "push-rod" ? "$.engine.screwAt" : "$.engine.feltAt", $"\"{end}\"");
        }

        Assert.Equal(ratio, Reading.Takes(draft).Engine.Valvetrain.Ratio, 1e-12);
    }

    [Theory]
    [InlineData("finger-follower", "ratio", "1.4", "$.engine.leverRatio", "found a ratio too")]
    [InlineData("shim-under-bucket", "name", "\"n\"", "$.engine.leverRatio", "a bucket has none")]
    [InlineData("finger-follower", "screwAt", "\"valve\"", "$.engine.screwAt", "found without the rocker of a screw")]
    public void Read_LeverThatContradictsTheCard_IsRefused(string valvetrain, string member, string value, string path, string words) =>
        Reading.Refuses(With(valvetrain).Set("$.engine.leverRatio", "1.4").Set($"$.engine.{member}", value), path, words);

    [Fact]
    public void Read_EndWithoutALeverRatio_IsRefused() =>
        Reading.Refuses(With("finger-follower").Set("$.engine.feltAt", "\"cam\""), "$.engine.feltAt", "belongs beside leverRatio");

    [Theory]
    [InlineData(0.5, true)]
    [InlineData(2.5, true)]
    [InlineData(0.49, false)]
    [InlineData(2.51, false)]
    public void Read_LeverRatio_HasLimits(double ratio, bool isTaken)
    {
        JobDraft draft = With("finger-follower").Set("$.engine.leverRatio", ratio.ToString(CultureInfo.InvariantCulture));
        if (isTaken)
        {
            Reading.Takes(draft);
        }
        else
        {
            Reading.Refuses(draft, "$.engine.leverRatio", "allowed is 0.5 to 2.5");
        }
    }

    private static JobDraft With(string valvetrain) => valvetrain == "screw"
        ? Sample.Screws().Remove("$.engine.ratio")
        : Sample.Shims().Remove("$.engine.ratio").Set("$.engine.valvetrain", $"\"{valvetrain}\"");
}
