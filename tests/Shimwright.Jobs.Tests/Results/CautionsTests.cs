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
    [InlineData("shim-over-bucket", "1.4", "ratio of 1.4 for a direct-acting valve train")]
    [InlineData("shim-over-bucket", "0.7", "ratio of 0.7 for a direct-acting valve train")]
    [InlineData("shim-over-bucket", "1", null)]
    [InlineData("finger-follower", "1.4", "ratio of 1.4 for a finger follower")]
    [InlineData("finger-follower", "0.7", null)]
    [InlineData("finger-follower", "1", "does not give the finger's lever ratio")]
    public void Cautions_RatioThatDoesNotSuitTheValveTrain_IsNamed(string valvetrain, string ratio, string? words)
    {
        string plan = Answers.Plan(Sample.Shims().Set("$.engine.valvetrain", $"\"{valvetrain}\"").Set("$.engine.ratio", ratio));
        Assert.Equal(words is not null, Has(plan, words ?? "ratio"));
    }

    [Fact]
    public void Cautions_LeverRatioGiven_LeavesNothingToBeAsked() => Assert.False(Has(
        Answers.Plan(Sample.Shims().Remove("$.engine.ratio").Set("$.engine.valvetrain", "\"finger-follower\"").Set("$.engine.leverRatio", "1.4")), "ratio"));

    [Fact]
    public void Cautions_OneValveThatNothingServes_ForbidsToRunTheEngine()
    {
        JobDraft draft = Sample.Shims().Set("$.stock", """{"drawer": []}""");
        using JsonDocument plan = JsonDocument.Parse(Answers.Plan(draft));
        Assert.Equal("E1", Assert.Single(plan.RootElement.GetProperty("stranded").EnumerateArray()).GetProperty("valve").GetString());
        Assert.True(Has(Answers.Plan(draft), "run it with E1 as it is"));
        Assert.False(Has(Answers.Plan(Sample.Shims()), "as it is"));
    }

    [Theory]
    [InlineData("0.8", false)]
    [InlineData("0.99999", true)]
    public void Cautions_ValveThatStaysBelowWhatTheVerdictAsksFor_IsNamed(string passFloor, bool isNamed) => Assert.Equal(
        isNamed, Has(Answers.Plan(Sample.Shims().Set("$.settings.passFloor", passFloor)), "stays as it is with a chance of"));

    /// <summary>One shim in the drawer, too thin: it is fitted, since the valve may not stay, and is less likely right than what is in there.</summary>
    [Fact]
    public void Cautions_BestShimIsLessLikelyRightThanTheOneInThere_IsNamed()
    {
        JobDraft draft = Sample.Shims()
            .Set("$.check.readings", """[{"valve": "I1", "value": 0.15, "u": 0.005}, {"valve": "E1", "value": 0.194, "u": 0.012}]""")
            .Set("$.stock", """{"drawer": [{"thickness": 2.67, "by": "micrometer", "count": 1}]}""");
        Assert.True(Has(Answers.Plan(draft), "the best at hand, the chance to be in band is"), Answers.Plan(draft));
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
