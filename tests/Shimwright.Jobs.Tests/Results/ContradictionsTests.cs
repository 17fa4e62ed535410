using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Tests.Results;

public class ContradictionsTests
{
    [Theory]
    [InlineData("""[{"blade": 0.20, "feel": "loose"}, {"blade": 0.18, "feel": "no"}]""", "I1: 0.20 was loose, but 0.18 won't enter. Feel the valve again and take back the wrong reading.")]
    [InlineData("""[{"blade": 0.15, "feel": "no"}, {"blade": 0.15, "feel": "light"}]""", "I1: 0.15 would not enter, but 0.15 is light.")]
    [InlineData("""[{"blade": 0.18, "feel": "light"}, {"blade": 0.15, "feel": "firm"}]""", "I1: 0.18 was light, but 0.15 is firm.")]
    [InlineData("""[{"blade": 0.16, "feel": "light"}, {"blade": 0.15, "feel": "firm"}]""", null)]
    [InlineData("""[{"blade": 0.15, "feel": "firm"}, {"blade": 0.15, "feel": "light"}]""", null)]
    [InlineData("""[{"blade": 0.15, "feel": "light"}, {"blade": 0.20, "feel": "no"}]""", null)]
    public void Cautions_BladesThatCannotBothBeRight_AreNamed(string trials, string? words) => AssertSays($$"""{"valve": "I1", "trials": {{trials}}}""", words);

    [Theory]
    [InlineData("""{"valve": "I1", "bucketTurns": true}, {"valve": "I1", "bucketTurns": false}""", "I1: the bucket turned on one try and not on another.")]
    [InlineData("""{"valve": "I1", "bucketTurns": false, "trials": [{"blade": 0.15, "feel": "light"}]}""", "I1: the bucket does not turn, but 0.15 slides in.")]
    [InlineData("""{"valve": "I1", "bucketTurns": true, "trials": [{"blade": 0.15, "feel": "no"}]}""", null)]
    public void Cautions_BucketThatCannotBeRight_IsNamed(string readings, string? words) => AssertSays(readings, words);

    /// <summary>Three standard uncertainties between two measured clearances; for a blade two hundredths besides.</summary>
    [Theory]
    [InlineData("""{"valve": "I1", "value": 0.150, "u": 0.005, "trials": [{"blade": 0.20, "feel": "light"}]}""", "I1: 0.20 was light, but 0.150 was measured. Measure and feel it again, and take back the wrong reading.")]
    [InlineData("""{"valve": "I1", "value": 0.150, "u": 0.005, "trials": [{"blade": 0.10, "feel": "no"}]}""", "I1: 0.10 would not enter, but 0.150 was measured.")]
    [InlineData("""{"valve": "I1", "value": 0.150, "u": 0.005, "trials": [{"blade": 0.18, "feel": "light"}, {"blade": 0.20, "feel": "firm"}]}""", null)]
    [InlineData("""{"valve": "I1", "value": 0.150, "u": 0.005, "trials": [{"blade": 0.12, "feel": "no"}]}""", null)]
    [InlineData("""{"valve": "I1", "value": 0.150, "u": 0.02, "trials": [{"blade": 0.20, "feel": "light"}]}""", null)]
    [InlineData("""{"valve": "I1", "value": 0.205, "u": 0.005}, {"valve": "I1", "value": 0.150, "u": 0.005}""", "I1: 0.205 and 0.150 were measured, too far apart for their uncertainties.")]
    [InlineData("""{"valve": "I1", "value": 0.170, "u": 0.005}, {"valve": "I1", "value": 0.150, "u": 0.005}""", null)]
    public void Cautions_MeasuredClearanceThatCannotBeRight_IsNamed(string readings, string? words) => AssertSays(readings, words);

    /// <summary>Which two readings it is, so that one of them can be taken back.</summary>
    [Theory]
    [InlineData("""{"valve": "I1", "trials": [{"blade": 0.10, "feel": "loose"}, {"blade": 0.20, "feel": "loose"}, {"blade": 0.18, "feel": "no"}]}""", false, 1, false, 2)]
    [InlineData("""{"valve": "I1", "bucketTurns": true}, {"valve": "I1", "bucketTurns": false}, {"valve": "I1", "bucketTurns": false}""", true, 0, true, 2)]
    [InlineData("""{"valve": "I1", "bucketTurns": false, "trials": [{"blade": 0.15, "feel": "light"}, {"blade": 0.18, "feel": "no"}]}""", true, 0, false, 0)]
    public void In_ReadingsThatContradict_SayWhichTwo(string readings, bool oneIsBucket, int one, bool otherIsBucket, int other)
    {
        Job job = Reading.Takes(Sample.Shims().Set("$.check.readings", $"[{readings}]"), JobPurpose.Estimate);
        Contradiction found = Assert.Single(Contradictions.In(job.Engine, job.Check.Readings, LengthWords.Millimetres));
        Assert.Equal(("I1", new ReadingPlace(oneIsBucket, one), new ReadingPlace(otherIsBucket, other)), (found.Valve, found.One, found.Other));
    }

    [Fact]
    public void Cautions_AtTheRecheck_AreNamedToo()
    {
        Job job = Reading.Takes(Sample.Shims().Set("$.recheck.readings", """[{"valve": "E1", "trials": [{"blade": 0.20, "feel": "loose"}, {"blade": 0.18, "feel": "no"}]}]"""), JobPurpose.Verdict);
        Assert.StartsWith("E1: 0.20 was loose, but 0.18 won't enter.", VerdictResult.Of(job).Cautions[0], StringComparison.Ordinal);
    }

    private static void AssertSays(string readings, string? words)
    {
        Job job = Reading.Takes(Sample.Shims().Set("$.check.readings", $"[{readings}]"), JobPurpose.Estimate);
        IReadOnlyList<string> cautions = EstimateResult.Of(job).Cautions;
        if (words is null)
        {
            Assert.DoesNotContain(cautions, c => c.Contains("take back the wrong reading", StringComparison.Ordinal));
        }
        else
        {
            Assert.Contains(cautions, c => c.StartsWith(words, StringComparison.Ordinal));
        }
    }
}
