using Shimwright.Domain.Planning;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests;

/// <summary>A second plan of a job file: the re-check is the check of the next round.</summary>
public class NextRoundTests
{
    [Fact]
    public void NextRound_OfAJob_HasWhatWasFittedInItsEngineAndTheOldShimInItsDrawer()
    {
        Job next = Reading.Takes(Sample.Shims(), JobPurpose.SecondPlan).NextRound();
        Assert.Equal([2.62, 2.70], next.Engine.Valves.Select(v => next.FittedAt(v)!.Millimetres));
        Assert.Equal("calliper", next.FittedAt(next.Engine.Valves[1])!.By.Name);
        Assert.Equal([(2.70, 1), (2.75, 1)], next.Stock.Drawer.Select(d => (d.Thickness.Millimetres, d.Count)));
        Assert.Equal(21, next.Check.Temperature);
        Assert.Empty(next.Changes);
        Assert.Single(next.Rounds);
    }

    [Fact]
    public void Plan_OfTheNextRound_EstimatesWhatTheVerdictLeft()
    {
        PlanResult plan = PlanResult.Of(Reading.Takes(Sample.Shims(), JobPurpose.SecondPlan).NextRound());
        VerdictResult verdict = VerdictResult.Of(Reading.Takes(Sample.Shims(), JobPurpose.Verdict));
        Assert.Equal(verdict.Valves.Select(v => v.Estimate), plan.Valves.Select(v => v.Estimate));
        Assert.Equal([2.62, 2.70], plan.Valves.Select(v => v.From!.Thickness));
    }

    /// <summary>The same work in one file as a round behind it and in another as a re-check: one plan.</summary>
    [Fact]
    public void Plan_OfAFileWithARound_IsThatOfTheNextRound()
    {
        JobDraft written = Sample.Shims().Remove("$.recheck").Set("$.check.temperatureC", "21")
            .Append("$.rounds", FirstRound)
            .Set("$.check.readings", "[{\"valve\": \"E1\", \"value\": 0.22, \"u\": 0.01, \"trials\": [{\"blade\": 0.20, \"feel\": \"loose\", \"leaves\": 1}]}]")
            .Set("$.check.fitted[1]", "{\"valve\": \"E1\", \"thickness\": 2.70, \"by\": \"calliper\"}")
            .Set("$.stock.drawer", "[{\"thickness\": 2.70, \"by\": \"calliper\", \"count\": 1}, {\"thickness\": 2.75, \"by\": \"marked\"}]");
        Assert.Equal(
            ResultJson.Write(PlanResult.Of(Reading.Takes(Sample.Shims(), JobPurpose.SecondPlan).NextRound()), indented: true),
            ResultJson.Write(PlanResult.Of(Reading.Takes(written, JobPurpose.Plan)), indented: true));
    }

    /// <summary>With a past behind it and a horizon before it a second plan knows the rates; the past is older than both rounds.</summary>
    [Fact]
    public void Plan_OfTheNextRoundWithAPastAndAHorizon_CountsTheRunning()
    {
        JobDraft draft = Sample.Shims().Append("$.history", Sample.PastCheck);
        PlanRequest without = Reading.Takes(draft, JobPurpose.SecondPlan).NextRound().ToPlanRequest();
        Assert.Null(without.Horizon);
        PlanRequest with = Reading.Takes(draft.Set("$.costs.horizon", "30"), JobPurpose.SecondPlan).NextRound().ToPlanRequest();
        Assert.Equal((30, 2), (with.Horizon!.Time, with.Horizon.Rates.Count));
        Assert.True(Planner.Plan(with).Chosen.ChanceAll < Planner.Plan(without).Chosen.ChanceAll);
    }

    [Fact]
    public void NextRound_WithoutARecheck_Throws() =>
        Assert.Throws<InvalidOperationException>(() => Reading.Takes(Sample.Shims().Remove("$.recheck")).NextRound());

    private const string FirstRound =
        """
        {
          "clock": 118, "temperatureC": 20, "loss": {"shared": 0.04, "own": 0.02},
          "readings": [
            {"valve": "I1", "trials": [{"blade": 0.10, "feel": "loose"}, {"blade": 0.13, "feel": "light", "leaves": 1}]},
            {"valve": "E1", "value": 0.17, "u": 0.01, "bucketTurns": true}
          ],
          "fitted": [{"valve": "I1", "thickness": 2.62, "by": "micrometer"}, {"valve": "E1", "thickness": 2.75, "by": "marked"}],
          "changed": [{"valve": "E1", "from": {"thickness": 2.75, "by": "marked"}, "to": {"thickness": 2.70, "by": "calliper"}}]
        }
        """;
}
