using System.Text.Json.Nodes;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Sections;

public class LimitTests
{
    [Theory]
    [InlineData("$.check.fitted[0].thickness", "0.3", "12", "0.299999", "12.000001")]
    [InlineData("$.recheck.changed[0].from.thickness", "0.3", "12", "0.299999", "12.000001")]
    [InlineData("$.recheck.changed[0].to.thickness", "0.3", "12", "0.299999", "12.000001")]
    [InlineData("$.stock.drawer[0].thickness", "0.3", "12", "0.299999", "12.000001")]
    [InlineData("$.stock.buy.from", "0.3", "2.9", "0.299999", "12.000001")]
    [InlineData("$.stock.buy.to", "2.5", "12", "0.299999", "12.000001")]
    [InlineData("$.check.blades[0]", "1e-300", "2", "0", "2.000001")]
    [InlineData("$.check.readings[0].trials[0].blade", "1e-300", "0.65", "0", "0.650001")]
    [InlineData("$.check.readings[0].trials[0].leaves", "1", "10", "0", "11")]
    [InlineData("$.check.readings[1].value", "-0.27", "0.73", "-0.270001", "0.730001")]
    [InlineData("$.check.readings[1].u", "0.001", "0.2", "0.000999", "0.200001")]
    [InlineData("$.recheck.readings[0].value", "-0.27", "0.73", "-0.270001", "0.730001")]
    [InlineData("$.engine.ratio", "0.1", "5", "0.099999", "5.000001")]
    [InlineData("$.check.loss.shared", "0.001", "1", "0.000999", "1.000001")]
    [InlineData("$.check.loss.own", "0.001", "1", "0.000999", "1.000001")]
    [InlineData("$.stock.drawer[0].count", "0", "10000", "-1", "10001")]
    [InlineData("$.stock.buy.price", "0", "100000", "-0.01", "100000.01")]
    [InlineData("$.costs.redo", "0", "100000", "-0.01", "100000.01")]
    [InlineData("$.costs.access['intake cam']", "0", "100000", "-0.01", "100000.01")]
    [InlineData("$.costs.disturb", "0", "100000", "-0.01", "100000.01")]
    [InlineData("$.costs.swap", "0", "100000", "-0.01", "100000.01")]
    [InlineData("$.costs.minutesPerCurrency", "0", "100000", "-0.01", "100000.01")]
    [InlineData("$.costs.horizon", "0", "10000000", "-1", "10000001")]
    [InlineData("$.check.clock", "0", "10000000", "-1", "10000001")]
    [InlineData("$.engine.wear.interval", "1e-6", "10000000", "0", "10000001")]
    [InlineData("$.check.temperatureC", "-40", "150", "-40.01", "150.01")]
    [InlineData("$.recheck.temperatureC", "-40", "150", "-40.01", "150.01")]
    [InlineData("$.settings.keepFloor", "0", "1", "-0.001", "1.001")]
    [InlineData("$.settings.fitFloor", "0", "1", "-0.001", "1.001")]
    public void Read_NumberAtAndBeyondItsLimits_IsTakenAndRefused(
        string path, string least, string greatest, string below, string above)
    {
        Reading.Takes(Sample.Shims().Set(path, least));
        Reading.Takes(Sample.Shims().Set(path, greatest));
        Reading.Refuses(Sample.Shims().Set(path, below), path, $"found {below}; allowed is ");
        Reading.Refuses(Sample.Shims().Set(path, above), path, $"found {above}; allowed is ");
    }

    [Theory]
    [InlineData("0.1", true)]
    [InlineData("3", true)]
    [InlineData("0.099999", false)]
    [InlineData("3.000001", false)]
    public void Read_PitchOfAScrew_HasItsLimits(string pitch, bool isTaken)
    {
        JobDraft draft = Sample.Screws().Set("$.engine.pitch", pitch);
        if (isTaken)
        {
            Reading.Takes(draft);
        }
        else
        {
            Reading.Refuses(draft, "$.engine.pitch", $"found {pitch}; allowed is 0.1 to 3 mm");
        }
    }

    [Theory]
    [InlineData("1.5", "2", true)]
    [InlineData("1.5", "2.000001", false)]
    [InlineData("1.4999", "2", false)]
    public void Read_ThickBlade_IsHeldToTwoMillimetresAndToHalfAMillimetreAboveTheMiddle(string middle, string blade, bool isTaken)
    {
        double m = JsonNode.Parse(middle)!.GetValue<double>();
        JobDraft draft = Sample.Shims()
            .Set("$.engine.valves[0].band", new JsonArray(m - 0.05, m + 0.05).ToJsonString())
            .Set("$.check.readings[0].trials[0].blade", blade);
        if (isTaken)
        {
            Reading.Takes(draft);
        }
        else
        {
            Reading.Refuses(draft, "$.check.readings[0].trials[0].blade", $"found {blade}; allowed is ");
        }
    }

    [Fact]
    public void Read_ThicknessInHundredths_AsksWhetherMillimetresWereMeant() => Reading.Refuses(
        Sample.Shims().Set("$.check.fitted[0].thickness", "262"),
        "$.check.fitted[0].thickness",
        "found 262; allowed is 0.3 to 12 mm; 2.62 meant?");

    [Fact]
    public void Read_ThicknessThatIsWrongInHundredthsToo_AsksNothing()
    {
        JobDraft draft = Sample.Shims().Set("$.check.fitted[0].thickness", "2620");
        Reading.Refuses(draft, "$.check.fitted[0].thickness", "found 2620; allowed is 0.3 to 12 mm");
        Assert.DoesNotContain("meant", Reading.Of(draft.Text).Problems[0].ToString(), StringComparison.Ordinal);
    }

    // Common practice, no source: a lash cap or shim of 1.20 is no 1.2 hundredths, whatever field it was typed into.
    [Theory]
    [InlineData("1.20")]
    [InlineData("1.95")]
    public void Read_ThicknessOfAShimAsABlade_AsksNothing(string found)
    {
        JobDraft draft = Sample.Shims().Set("$.check.readings[0].trials[0].blade", found);
        Reading.Refuses(draft, "$.check.readings[0].trials[0].blade", "allowed is up to 0.5 mm above the middle of the band");
        Assert.DoesNotContain("meant", Reading.Of(draft.Text).Problems[0].ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("$.check.readings[0].trials[0].blade", "10", "0.1 meant?")]
    [InlineData("$.check.readings[1].value", "17", "0.17 meant?")]
    [InlineData("$.check.readings[1].value", "9", "0.09 meant?")]
    [InlineData("$.check.blades[1]", "13", "0.13 meant?")]
    public void Read_ClearanceInHundredths_AsksWhetherMillimetresWereMeant(string path, string found, string question) =>
        Reading.Refuses(Sample.Shims().Set(path, found), path, question);
}
