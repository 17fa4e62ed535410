using System.Text.Json;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Results;

public class CautionsTests
{
    [Theory]
    [InlineData("30", false)]
    [InlineData("30.1", true)]
    [InlineData("10", false)]
    [InlineData("9.9", true)]
    public void Cautions_TemperatureFarFromTwentyDegrees_IsNamedWhereItsEffectIsUnknown(string temperature, bool isNamed)
    {
        JobDraft unknown = Sample.Shims().Remove("$.engine.temperature").Set("$.check.temperatureC", temperature);
        Assert.Equal(isNamed, Has(Answers.Estimate(unknown), "kappaMmPerC"));
        Assert.Equal(isNamed, Has(Answers.Plan(unknown), "kappaMmPerC"));
        Assert.Equal(isNamed, Has(Answers.Verdict(unknown), "kappaMmPerC"));
        JobDraft known = Sample.Shims().Set("$.check.temperatureC", temperature);
        Assert.False(Has(Answers.Plan(known), "kappaMmPerC"));
    }

    [Fact]
    public void Cautions_WarmRecheck_IsNamedInTheVerdictOnly()
    {
        JobDraft draft = Sample.Shims().Remove("$.engine.temperature").Set("$.recheck.temperatureC", "60");
        Assert.True(Has(Answers.Verdict(draft), "Read at 60 degrees C"));
        Assert.False(Has(Answers.Plan(draft), "Read at 60 degrees C"));
    }

    [Theory]
    [InlineData("shim-over-bucket", true)]
    [InlineData("finger-follower", false)]
    public void Cautions_RatioUnderADirectActingCam_IsNamed(string valvetrain, bool isNamed)
    {
        JobDraft draft = Sample.Shims().Set("$.engine.valvetrain", $"\"{valvetrain}\"").Set("$.engine.ratio", "1.4");
        Assert.Equal(isNamed, Has(Answers.Plan(draft), "ratio of 1.4"));
        Assert.False(Has(Answers.Plan(draft.Set("$.engine.ratio", "1")), "ratio of"));
    }

    [Fact]
    public void Cautions_NoBladeEntered_NamesTheValves()
    {
        JobDraft draft = Sample.Shims().Set("$.check.readings[0].trials", """[{"blade": 0.05, "feel": "no"}]""");
        Assert.True(Has(Answers.Estimate(draft), "No blade entered at I1"));
        Assert.False(Has(Answers.Estimate(draft.Append("$.check.readings[0].trials", """{"blade": 0.04, "feel": "firm"}""")), "No blade entered"));
    }

    private static bool Has(string answer, string words)
    {
        using JsonDocument document = JsonDocument.Parse(answer);
        return document.RootElement.GetProperty("cautions").EnumerateArray().Any(c => c.GetString()!.Contains(words, StringComparison.Ordinal));
    }
}
