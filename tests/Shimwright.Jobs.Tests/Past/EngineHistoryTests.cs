using System.Text.Json.Nodes;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Tests.Samples;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Tests.Past;

/// <summary>The past of an engine is that which a person would write by hand from the records of its jobs.</summary>
public class EngineHistoryTests
{
    private static readonly Guid First = new(1, 0, 0, new byte[8]);

    /// <summary>The past that a person would write for the job of <see cref="Worked"/>.</summary>
    private const string ByHand =
        """
        [
          {
            "clock": 118, "temperatureC": 20, "loss": {"shared": 0.04, "own": 0.02},
            "readings": [{"valve": "I1", "value": 0.14, "u": 0.01}, {"valve": "E1", "value": 0.17, "u": 0.01}],
            "fitted": [{"valve": "I1", "thickness": 2.62, "by": "micrometer"}, {"valve": "E1", "thickness": 2.75, "by": "micrometer"}],
            "changed": [{"valve": "E1", "from": {"thickness": 2.75, "by": "micrometer"}, "to": {"thickness": 2.70, "by": "calliper"}}]
          },
          {
            "clock": 118, "temperatureC": 20, "loss": {"shared": 0.04, "own": 0.02},
            "readings": [{"valve": "E1", "value": 0.22, "u": 0.01}],
            "fitted": [{"valve": "I1", "thickness": 2.62, "by": "micrometer"}, {"valve": "E1", "thickness": 2.70, "by": "calliper"}]
          }
        ]
        """;

    [Fact]
    public void Of_AJobAndANewCheck_EstimatesAsTheFileWrittenByHand()
    {
        IReadOnlyList<WrittenCheck> history = EngineHistory.Of(Worked().Sheet.Setup.Card, [Past(Worked())]);
        JobDraft byHand = NewCheck().Set("$.history", ByHand);
        JobDraft ofBench = NewCheck().Set("$.history", AsJson(history));
        EstimateResult expected = EstimateResult.Of(Reading.Takes(byHand));
        Assert.Equal(ResultJson.Write(expected, indented: true), ResultJson.Write(EstimateResult.Of(Reading.Takes(ofBench)), indented: true));

        EstimateResult without = EstimateResult.Of(Reading.Takes(NewCheck()));
        Assert.NotEqual(without.Valves[0].Sd, expected.Valves[0].Sd);
    }

    [Fact]
    public void Begin_WithAPast_StartsAJobThatHasIt()
    {
        IReadOnlyList<WrittenCheck> history = EngineHistory.Of(Worked().Sheet.Setup.Card, [Past(Worked())]);
        ParsedSetup reading = JobSetup.Begin(Worked().Sheet.Setup.Card, 140, 20, new(History: history));
        Assert.Empty(reading.Problems);
        Assert.Equal([118.0, 118.0], reading.Setup!.Start.History.Select(h => h.Clock));
        Assert.Single(reading.Setup.Start.History[0].Changes);
        Assert.Equal(1, EngineHistory.Times(history));
        Assert.Equal(118, EngineHistory.LastClock(history));
    }

    [Fact]
    public void Of_SecondRoundAfterAFailedRecheck_CountsEveryReadingOnce()
    {
        Ledger first = Worked();
        ParsedSetup round = SecondRound.Of(first.Sheet);
        Ledger second = new(round.Setup!);
        second.Add(round.Facts);
        second.Add(new ShimFitted("E1", new(2.70, "calliper"), new(2.72, "calliper")));
        second.Add(new ClearanceRead(SheetPart.Recheck, "E1", 0.21, 0.01));
        second.Add(new JobClosed(119, "", "", ""));
        IReadOnlyList<WrittenCheck> history = EngineHistory.Of(first.Sheet.Setup.Card, [Past(first), new(Ledger.Action(9), second.Sheet, PastOrigin.SecondRound, First)]);
        Assert.Equal(3, history.Count);
        string[] readings = [.. history.SelectMany(h => h.Readings).Select(r => FormattableString.Invariant($"{r.Valve} {r.Value}"))];
        Assert.Equal(["I1 0.14", "E1 0.17", "E1 0.22", "E1 0.21"], readings);
        Assert.Equal([1, 1, 0], history.Select(h => h.Changed?.Count ?? 0));
    }

    /// <summary>A second round that a bench kept from before there were rounds took the reading of I1, which was left alone, over.</summary>
    [Fact]
    public void Of_SecondRoundOfAnOlderProgram_CountsEveryReadingOnce()
    {
        Ledger first = Worked();
        Ledger second = new(JobSetup.Begin(first.Sheet.Setup.Card, 119, 20, new(History: [first.Sheet.Setup.Written.Check])).Setup!);
        second.Add(new ClearanceRead(SheetPart.Check, "E1", 0.22, 0.01));
        second.Add(new ClearanceRead(SheetPart.Check, "I1", 0.14, 0.01));
        second.Add(new JobClosed(119, "", "", ""));
        IReadOnlyList<WrittenCheck> history = EngineHistory.Of(first.Sheet.Setup.Card, [Past(first), new(Ledger.Action(9), second.Sheet, PastOrigin.SecondRound, First)]);
        string[] readings = [.. history.SelectMany(h => h.Readings).Select(r => FormattableString.Invariant($"{r.Valve} {r.Value}"))];
        Assert.Equal(["E1 0.17", "E1 0.22", "I1 0.14"], readings.Order(StringComparer.Ordinal));
    }

    /// <summary>The second job was begun with the first as its past; the first was corrected afterwards.</summary>
    [Fact]
    public void Of_JobBegunWithAPast_AsksTheJobsThemselves()
    {
        Ledger first = Worked();
        WrittenStart start = new(History: EngineHistory.Of(first.Sheet.Setup.Card, [Past(first)]));
        Ledger second = new(JobSetup.Begin(first.Sheet.Setup.Card, 150, 20, start).Setup!);
        second.Add(new ClearanceRead(SheetPart.Check, "I1", 0.13, 0.01));
        second.Add(new JobClosed(150, "", "", ""));
        first.Add(new CheckStated(117, 20));
        IReadOnlyList<WrittenCheck> history = EngineHistory.Of(first.Sheet.Setup.Card, [Past(first), new(Ledger.Action(9), second.Sheet, PastOrigin.Bench)]);
        Assert.Equal([117.0, 117.0, 150.0], history.Select(h => h.Clock));
    }

    [Fact]
    public void Of_FilesThatWereTakenIn_KeepTheirPastOnce()
    {
        string file = Sample.Shims().Remove("$.recheck").Append("$.history", Sample.PastCheck).Text;
        Ledger one = Ledger.ImportedJob(file), other = Ledger.ImportedJob(file);
        other.Add(new CheckStated(130, 20));
        IReadOnlyList<WrittenCheck> history = EngineHistory.Of(one.Sheet.Setup.Card, [new(First, one.Sheet, PastOrigin.File), new(Ledger.Action(9), other.Sheet, PastOrigin.File)]);
        Assert.Equal([60.0, 118.0, 130.0], history.Select(h => h.Clock));
    }

    /// <summary>Two files tell of one and the same past check only where it was read the same and the same was done after it.</summary>
    [Theory]
    [InlineData("$.readings[0].trials[0].blade", "0.10", 1)]
    [InlineData("$.readings[0].trials[0].blade", "0.08", 2)]
    [InlineData("$.readings[0].trials[0].feel", "\"firm\"", 2)]
    [InlineData("$.readings[0].u", "0.02", 2)]
    [InlineData("$.readings[1].value", "0.19", 2)]
    [InlineData("$.changed[0].to.thickness", "2.6", 2)]
    [InlineData("$.changed", "[]", 2)]
    [InlineData("$.clock", "59", 2)]
    [InlineData("$.fitted", "[]", 1)]
    public void Of_FilesWithPastChecks_CountsTheSameOnce(string member, string value, int checks)
    {
        JobDraft past = new("""
            {
              "clock": 60, "readings": [{"valve": "I1", "trials": [{"blade": 0.1, "feel": "light"}], "value": 0.14, "u": 0.01}, {"valve": "E1", "value": 0.2}],
              "fitted": [{"valve": "I1", "thickness": 2.7, "by": "marked"}],
              "changed": [{"valve": "I1", "from": {"thickness": 2.7, "by": "marked"}, "to": {"thickness": 2.62, "by": "marked"}}]
            }
            """);
        Ledger one = With(past.Text), other = With(past.Set(member, value).Text);
        IReadOnlyList<WrittenCheck> history = EngineHistory.Of(one.Sheet.Setup.Card, [new(First, one.Sheet, PastOrigin.File), new(Ledger.Action(9), other.Sheet, PastOrigin.File)]);
        Assert.Equal(checks, history.Count(h => h.Clock < 118));

        static Ledger With(string check) => Ledger.ImportedJob(Sample.Shims().Remove("$.recheck").Append("$.history", check).Text);
    }

    [Fact]
    public void Of_CardThatHasChanged_LeavesOutWhatIsNoLongerThere()
    {
        var card = (JsonObject)JsonNode.Parse(Sample.Shims().Text)!["engine"]!.DeepClone();
        card["valves"]![1]!["id"] = "X1";
        IReadOnlyList<WrittenCheck> history = EngineHistory.Of(EngineCard.Read(card).Card!, [Past(Worked())]);
        Assert.Equal(["I1"], history.SelectMany(h => h.Readings).Select(r => r.Valve));
        Assert.All(history, h => Assert.Empty(h.Changed ?? []));
    }

    [Fact]
    public void Now_LastCheckWithAChange_IsACheckWithoutReadingsAndWithWhatWasLeft()
    {
        Ledger taken = Ledger.ImportedJob(Sample.Shims().Remove("$.recheck").Set("$.history", $"[{Sample.PastCheck}]").Text);
        (WrittenCheck now, IReadOnlyList<WrittenCheck> before) = EngineHistory.Now(taken.Sheet.Setup.Written.History!);
        Assert.Single(before);
        Assert.Empty(now.Readings);
        Assert.Null(now.Changed);
        Assert.Equal((60.0, 2.62), (now.Clock, now.Fitted![0].Thickness));
    }

    [Fact]
    public void Now_LastCheckIsTheRecheck_IsThatCheck()
    {
        IReadOnlyList<WrittenCheck> history = EngineHistory.Of(Worked().Sheet.Setup.Card, [Past(Worked())]);
        (WrittenCheck now, IReadOnlyList<WrittenCheck> before) = EngineHistory.Now(history);
        Assert.Single(before);
        Assert.Equal(0.22, now.Readings[0].Value);
        Assert.Null(now.Changed);
    }

    [Fact]
    public void Now_OfAnEngineThatWasNeverChecked_Throws() => Assert.Throws<ArgumentException>(() => EngineHistory.Now([]));

    /// <summary>A past as it stands in the file of a job that starts with it.</summary>
    private static string AsJson(IReadOnlyList<WrittenCheck> history) => JsonNode.Parse(new WrittenStart(History: history).ToJson())!["history"]!.ToJsonString();

    /// <summary>A file may bring 1,000 past checks; of more the oldest go.</summary>
    [Fact]
    public void Of_MoreThanIsKept_KeepsTheNewest()
    {
        string past = string.Join(",", Enumerable.Range(1, 1000).Select(k => $$"""{"clock": {{k}}, "temperatureC": 20, "readings": [{"valve": "I1", "value": 0.14, "u": 0.01}]}"""));
        Ledger ledger = Ledger.ImportedJob(Sample.Shims().Set("$.check.clock", "1001").Set("$.history", $"[{past}]").Text);
        IReadOnlyList<WrittenCheck> history = EngineHistory.Of(ledger.Sheet.Setup.Card, [Past(ledger)]);
        Assert.Equal(1000, history.Count);
        Assert.Equal(1001, EngineHistory.LastClock(history));
        Assert.True(history[0].Clock > 1, $"The oldest is kept: {history[0].Clock}");
    }

    private static PastJob Past(Ledger ledger) => new(First, ledger.Sheet, PastOrigin.File);

    /// <summary>I1 left alone, E1 changed and felt again, the job closed.</summary>
    private static Ledger Worked()
    {
        Ledger ledger = Ledger.ShimsFitted();
        ledger.Add(new ClearanceRead(SheetPart.Recheck, "E1", 0.22, 0.01));
        ledger.Add(new RecheckStated(20));
        ledger.Add(new JobClosed(119, "", "", ""));
        return ledger;
    }

    private static JobDraft NewCheck() => Sample.Shims().Remove("$.recheck").Set("$.check.clock", "140");
}
