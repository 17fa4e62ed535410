using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Tests.Samples;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Tests.Results;

public class LeftOutTests
{
    private const string Newest = """{"blade": 0.13, "feel": "light"}""";
    private const string Oldest = """{"blade": 0.30, "feel": "loose"}""";

    /// <summary>Hundreds of trials of one valve took minutes.</summary>
    [Fact]
    public void Estimate_ManyTrials_CountsTheNewestAndSaysHowManyAreLeftOut()
    {
        EstimateResult many = EstimateResult.Of(Read(Trials(Oldest, 460, Newest, 40)));
        EstimateResult newest = EstimateResult.Of(Read(Trials(Oldest, 0, Newest, 40)));
        Assert.Equal(newest.Valves, many.Valves);
        Assert.Equal(["I1: only the newest 40 readings of each kind count; 460 older ones are left out."], many.Cautions.Except(newest.Cautions));
    }

    [Fact]
    public void Verdict_ManyTrialsAtTheRecheck_SaysHowManyAreLeftOut() => Assert.Contains(
        "E1: only the newest 40 readings of each kind count; 1 older one is left out.",
        VerdictResult.Of(Reading.Takes(Sample.Shims().Set("$.recheck.readings", $"[{Trials(Oldest, 1, Newest, 40, "E1")}]"), JobPurpose.Verdict)).Cautions);

    /// <summary>The bench takes a contradicting reading back by its place among all, those left out counted.</summary>
    [Fact]
    public void Contradictions_WithOlderOnesLeftOut_NameThePlaceAmongAll()
    {
        Job job = Read(Trials(Newest, 45, """{"blade": 0.20, "feel": "loose"}, {"blade": 0.18, "feel": "no"}""", 1));
        Contradiction found = Assert.Single(Contradictions.In(job.Engine, job.Check.Readings, LengthWords.Millimetres));
        Assert.Equal((new ReadingPlace(false, 45), new ReadingPlace(false, 46)), (found.One, found.Other));
    }

    [Fact]
    public void Import_ManyTrials_KeepsThemAll()
    {
        ParsedSetup setup = JobSetup.FromFile(Sample.Shims().Set("$.check.readings", $"[{Trials(Oldest, 60, Newest, 40)}]").Bytes);
        Assert.Equal(100, setup.Facts.OfType<BladeTried>().Count(t => t.Valve == "I1" && t.Part == SheetPart.Check));
    }

    private static Job Read(string reading) => Reading.Takes(Sample.Shims().Set("$.check.readings", $"[{reading}]"), JobPurpose.Estimate);

    private static string Trials(string first, int times, string then, int more, string valve = "I1") =>
        $$"""{"valve": "{{valve}}", "trials": [{{string.Join(", ", Enumerable.Repeat(first, times).Concat(Enumerable.Repeat(then, more)))}}]}""";
}
