using System.Text.Json;
using Shimwright.Domain.CrankStops;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Stops;

/// <summary>The decompressor of a card. What it does: common practice, no source.</summary>
public class DecompressorTests
{
    private const string Card = "$.engine.decompressor";

    [Theory]
    [InlineData("forwards", 30, "turn past its lift to this stop")]
    [InlineData("both", 30, "whichever way the crank turns")]
    [InlineData("backwards", 0, "come to this stop forwards")]
    public void Stops_ValveOfADecompressor_IsReadWhereItDoesNotLift(string lifts, double angle, string words)
    {
        StopRow stop = Assert.Single(StopsJob.Answer(Single(lifts)).Stops);
        Assert.Equal(angle, stop.CrankDeg);
        Assert.Contains(stop.Cautions, c => c.StartsWith("E1: ", StringComparison.Ordinal) && c.Contains(words, StringComparison.Ordinal));
        Assert.Equal(angle == 30, stop.Words.EndsWith("30 degrees past cylinder 1's TDC on compression, where the decompressor has let go of E1", StringComparison.Ordinal));
        Assert.DoesNotContain(StopsJob.Answer(Single(lifts).Remove(Card)).Stops[0].Cautions, c => c.Contains("decompressor", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("[]", "\"both\"", ".valves", "found 0 entries")]
    [InlineData("[\"X9\"]", "\"both\"", ".valves", "found \"X9\", which is no valve of this engine; its valves are I1, E1")]
    [InlineData("[\"E1\", \"E1\"]", "\"both\"", ".valves", "stands there twice")]
    [InlineData("[\"E1\", 5]", "\"both\"", ".valves[1]", "found 5")]
    [InlineData("[\"E1\"]", "\"up\"", ".liftsWhenTurned", "allowed is \"forwards\", \"backwards\", \"both\"")]
    public void Read_DecompressorThatIsNone_IsRefused(string valves, string lifts, string path, string words) =>
        StopsJob.Refuses(Single("both").Set(Card, $$"""{"valves": {{valves}}, "liftsWhenTurned": {{lifts}}}"""), Card + path, words);

    // A tight reading at its valve: the first caution is the decompressor. A valve in band, or another valve, has none.
    [Theory]
    [InlineData("E1", "{\"valve\": \"E1\", \"trials\": [{\"blade\": 0.05, \"feel\": \"no\"}]}", true)]
    [InlineData("E1", "{\"valve\": \"E1\", \"value\": 0.10}", true)]
    [InlineData("E1", "{\"valve\": \"E1\", \"value\": 0.23}", false)]
    [InlineData("E1", "{\"valve\": \"E1\", \"value\": 0.40}", false)]
    [InlineData("I1", "{\"valve\": \"E1\", \"value\": 0.10}", false)]
    public void Cautions_TightAtAValveOfTheDecompressor_NameItFirst(string lifted, string reading, bool isNamed)
    {
        JobDraft draft = Sample.Shims().Remove("$.recheck").Set(Card, $$"""{"valves": ["{{lifted}}"], "liftsWhenTurned": "backwards"}""").Set("$.check.readings[1]", reading);
        Assert.Equal(isNamed, First(Answers.Estimate(draft)).StartsWith("The decompressor works on E1, which reads tight.", StringComparison.Ordinal));
        Assert.Equal(isNamed, First(Answers.Plan(draft)).StartsWith("The decompressor works on E1, which reads tight.", StringComparison.Ordinal));
    }

    [Fact]
    public void Cautions_TightAtTheRecheck_NameItFirst()
    {
        JobDraft draft = Sample.Shims().Set(Card, """{"valves": ["E1"], "liftsWhenTurned": "forwards"}""");
        Assert.DoesNotContain("decompressor", First(Answers.Verdict(draft)), StringComparison.Ordinal);
        Assert.Contains("or back a little until it lets go", First(Answers.Verdict(draft.Set("$.recheck.readings", """[{"valve": "E1", "trials": [{"blade": 0.05, "feel": "no"}]}]"""))), StringComparison.Ordinal);
    }

    [Fact]
    public void WorksOn_AValve_GoesByItsName()
    {
        DecompressorLift lifts = Reading.Takes(Single("both"), JobPurpose.Stops).Decompressor!.Lifts;
        Assert.Equal(DecompressorLift.Both, lifts);
        Assert.Null(Reading.Takes(Sample.Screws()).Decompressor);
    }

    /// <summary>The first caution, or nothing.</summary>
    private static string First(string answer)
    {
        using JsonDocument document = JsonDocument.Parse(answer);
        return document.RootElement.GetProperty("cautions").EnumerateArray().Select(c => c.GetString()!).FirstOrDefault("");
    }

    private static JobDraft Single(string lifts)
    {
        JobDraft draft = StopsJob.Four().Set("$.engine.layout.firingOrder", "[1]").Set(Card, $$"""{"valves": ["E1"], "liftsWhenTurned": "{{lifts}}"}""");
        for (int v = 7; v >= 2; v--)
        {
            draft.Remove($"$.engine.valves[{v}]");
        }

        return draft;
    }
}
