using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests;

/// <summary>Dry fits of a job file: rounds of feeling in the middle of the work.</summary>
public class DryFitTests
{
    private static JobDraft Dry => Sample.Shims().Set("$.recheck.dryFits", $"[{Sample.DryFit}]");

    /// <summary>The same feeling written as an earlier round is worth the same.</summary>
    [Fact]
    public void Verdict_AfterADryFit_IsThatOfAJobWithARoundBehindIt()
    {
        JobDraft rounds = Sample.Shims()
            .Append("$.rounds", """
                {
                  "clock": 118, "temperatureC": 20, "loss": {"shared": 0.04, "own": 0.02},
                  "readings": [
                    {"valve": "I1", "trials": [{"blade": 0.10, "feel": "loose"}, {"blade": 0.13, "feel": "light", "leaves": 1}]},
                    {"valve": "E1", "value": 0.17, "u": 0.01, "bucketTurns": true}
                  ],
                  "fitted": [{"valve": "I1", "thickness": 2.62, "by": "micrometer"}, {"valve": "E1", "thickness": 2.75, "by": "marked"}],
                  "changed": [{"valve": "E1", "from": {"thickness": 2.75, "by": "marked"}, "to": {"thickness": 2.65, "by": "marked"}}]
                }
                """)
            .Set("$.check.temperatureC", "21")
            .Set("$.check.readings", """[{"valve": "E1", "value": 0.27, "u": 0.01, "trials": [{"blade": 0.25, "feel": "light", "leaves": 1}]}]""")
            .Set("$.check.fitted[1].thickness", "2.65")
            .Set("$.recheck.changed[0].from.thickness", "2.65");
        VerdictResult dry = VerdictResult.Of(Reading.Takes(Dry, JobPurpose.Verdict));
        VerdictResult round = VerdictResult.Of(Reading.Takes(rounds, JobPurpose.Verdict));
        Assert.Equal(round.Valves.Select(v => v.Estimate), dry.Valves.Select(v => v.Estimate));
        Assert.Equal(round.Valves.Select(v => v.Predicted), dry.Valves.Select(v => v.Predicted));
        Assert.NotEqual(VerdictResult.Of(Reading.Takes(Sample.Shims(), JobPurpose.Verdict)).Valves[1].Predicted, dry.Valves[1].Predicted);
    }

    /// <summary>A shim that stays has its camshaft laid down once more: what was felt dry is where it is, give or take its seating.</summary>
    [Fact]
    public void Verdict_OfAShimThatStays_CountsItsSeatingOnceMore()
    {
        Job job = Reading.Takes(Dry.Remove("$.recheck.dryFits[0].changed"), JobPurpose.Verdict);
        Recheck last = job.ToRecheck();
        Assert.True(Assert.Single(last.Changes).IsSeatedAnew);
        ClearanceDistribution felt = EngineEstimate.From(last.Before).Valves[1];
        RecheckedValve valve = RecheckVerdict.On(last).Valves[1];
        double spread = felt.StandardDeviation;
        Assert.Equal(felt.Mean, valve.Predicted.Mean, 1e-4);
        Assert.Equal(Math.Sqrt((spread * spread) + (0.004 * 0.004)), valve.Predicted.StandardDeviation, 2e-4);
    }

    /// <summary>While a camshaft lies dry a second plan opens it for nothing and plans from what was felt with it.</summary>
    [Fact]
    public void SecondPlan_WhileACamshaftLiesDry_OpensItForNothing()
    {
        JobDraft dry = Dry.Remove("$.recheck.dryFits[0].changed").Set("$.recheck.readings", "[]")
            .Set("$.recheck.dryFits[0].readings[0].value", "0.33").Set("$.recheck.dryFits[0].readings[0].trials", """[{"blade": 0.28, "feel": "loose"}]""");
        PlanResult plan = PlanResult.Of(Reading.Takes(dry, JobPurpose.SecondPlan).NextRound());
        PlanRow e1 = plan.Valves[1];
        Assert.Equal(["exhaust cam"], plan.Opened);
        Assert.Equal((2.70, 2.80), (e1.From!.Thickness, e1.To!.Thickness));
        Assert.Equal(3 + 8, plan.Work);
        VerdictResult felt = VerdictResult.Of(Reading.Takes(dry, JobPurpose.Draft));
        Assert.InRange(e1.Estimate.Mean, felt.Valves[1].Predicted.Mean - 0.001, felt.Valves[1].Predicted.Mean + 0.001);
    }

    /// <summary>Two shims tried at one valve: each feeling counts for the shim that lay there then.</summary>
    [Fact]
    public void DryFits_OfTwoShimsAtOneValve_AreToldFromTheFeelingBefore()
    {
        Job job = Reading.Takes(Dry, JobPurpose.Verdict);
        Assert.Equal([(2.75, 2.65)], job.DryFits[0].Changes.Select(c => (c.From!.Millimetres, c.To!.Millimetres)));
        Assert.Equal([(2.65, 2.70)], job.LastChanges.Select(c => (c.From!.Millimetres, c.To!.Millimetres)));
        Assert.Equal([(2.75, 2.70)], job.Changes.Select(c => (c.From!.Millimetres, c.To!.Millimetres)));
    }

    [Theory]
    [InlineData("\"camshaft\"", "$.recheck.dryFits[0].access", "found \"camshaft\"; its groups are intake cam, exhaust cam")]
    [InlineData("\"intake cam\"", "$.recheck.dryFits[0].changed", "\"E1\" does not lie under the intake cam; a dry fit of it is of I1")]
    public void DryFit_OfAGroupThatIsNotThere_IsRefused(string group, string path, string words) =>
        Reading.Notes(Dry.Set("$.recheck.dryFits[0].access", group), path, words, JobPurpose.Draft);

    [Fact]
    public void DryFit_OfAnEngineWithScrews_IsRefused() => Reading.Notes(
        Sample.Screws().Set("$.recheck.dryFits", """[{"access": "cover", "readings": []}]"""), "$.recheck.dryFits[0]", "found a dry fit", JobPurpose.Draft);
}
