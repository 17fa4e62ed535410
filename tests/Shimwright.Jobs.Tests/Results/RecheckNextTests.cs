using System.Globalization;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Results;

public class RecheckNextTests
{
    private const string E2 = "$.recheck.readings[2].trials";

    /// <summary>A changed valve cannot pass unread, so each is named before anything that would pay, with the blade next to what is expected there.</summary>
    [Fact]
    public void Of_ChangedValvesUnread_NamesEachWithTheBladeNextToItsPrediction()
    {
        (Job job, VerdictResult verdict, NextResult next) = Asked(Pump().Set("$.recheck.readings", "[]"));
        Assert.Equal(["I1", "I2", "E2"], next.Next.Select(n => n.Valve));
        Assert.All(next.Next, n =>
        {
            double expected = verdict.Valves.Single(v => v.Valve == n.Valve).Predicted.Mean;
            Assert.Equal(job.Blades.MinBy(b => Math.Abs(b - expected)), n.Blades.Single());
            Assert.Equal((PassResult.NotFelt, 0.0, 0.5), (n.Needed, n.Saves, n.Takes));
            Assert.Equal("A changed valve cannot pass until it is felt again.", NextWords.Worth(n));
        });
        Assert.False(next.PlanNow);
    }

    [Fact]
    public void Of_OneChangedValveUnread_NamesItAlone()
    {
        (_, _, NextResult next) = Asked(Pump().Remove("$.recheck.readings[1]"));
        Assert.Equal("I2", Assert.Single(next.Next).Valve);
    }

    [Fact]
    public void Of_Stops_GoesThroughTheUnreadInTheirOrder()
    {
        Job job = Reading.Takes(Pump().Set("$.recheck.readings", "[]"), JobPurpose.Next);
        StopsResult stops = new("", [Stop("E2", "E1"), Stop("I2", "I1")], [], []);
        Assert.Equal(["E2", "I2", "I1"], RecheckNext.Of(job, VerdictResult.Of(job), stops).Next.Select(n => n.Valve));
        static StopRow Stop(params string[] valves) => new(0, 0, [.. valves.Select(v => new StoppedRow(v, 9))], "", []);
    }

    /// <summary>Once all are read it is what the command says of the next round, readings alone.</summary>
    [Fact]
    public void Of_AllRead_IsTheAdviceOfTheNextRoundWithReadingsOnly()
    {
        JobDraft draft = Pump().Set(E2, """[{"blade": 0.25, "feel": "no"}]""");
        (_, VerdictResult verdict, NextResult next) = Asked(draft);
        NextResult command = NextResult.Of(Reading.Takes(draft, JobPurpose.SecondNext).NextRound());
        Assert.False(verdict.Pass);
        Assert.Contains(command.Next, n => n.Do is not ("blade" or "bucket"));
        Assert.Equal(command.Next.Where(n => n.Do is "blade" or "bucket").Select(n => (n.Words, n.Saves)), next.Next.Select(n => (n.Words, n.Saves)));
        Assert.Equal((command.Minutes, "E2"), (next.Minutes, next.First!.Valve));
    }

    /// <summary>A valve left alone that was felt again and passes is done with; what is left to say of it is for another round.</summary>
    [Fact]
    public void Of_AValveLeftAloneThatPassesAgain_IsNotNamed()
    {
        JobDraft draft = Pump().Set(E2, """[{"blade": 0.25, "feel": "no"}]""");
        Assert.Contains(Asked(draft).Next.Next, n => n.Valve == "E1");
        draft.Append("$.recheck.readings", """{"valve": "E1", "trials": [{"blade": 0.25, "feel": "firm"}]}""");
        (_, VerdictResult verdict, NextResult next) = Asked(draft);
        Assert.True(verdict.Valves.Single(v => v.Valve == "E1").Passes);
        Assert.DoesNotContain(next.Next, n => n.Valve == "E1");
    }

    /// <summary>What was felt says too little to pass, and no trial pays for a plan: the verdict still waits for one.</summary>
    [Fact]
    public void Of_FeltTooLittleWhereNothingPays_NamesABladeThatWasNotTried()
    {
        (_, VerdictResult verdict, NextResult next) = Asked(Dear(Pump().Set(E2, """[{"blade": 0.2, "feel": "loose"}]"""), 50));
        Assert.Equal(PassResult.FeltTooLittle, verdict.Valves.Single(v => v.Valve == "E2").Result);
        NextRow row = Assert.Single(next.Next);
        Assert.Equal(("E2", 0.28, PassResult.FeltTooLittle), (row.Valve, row.Blades.Single(), row.Needed));
        Assert.Equal("Felt too little to pass.", NextWords.Worth(row));
    }

    [Theory]
    [InlineData("""[{"blade": 0.25, "feel": "light"}, {"blade": 0.28, "feel": "firm"}]""", true)]
    [InlineData("""[{"blade": 0.25, "feel": "no"}]""", false)]
    public void Of_NothingPays_LeavesItToTheVerdict(string trials, bool passes)
    {
        (_, VerdictResult verdict, NextResult next) = Asked(Dear(Pump().Set(E2, trials), 100));
        Assert.Equal((passes, true, 0), (verdict.Pass, next.PlanNow, next.Next.Count));
    }

    [Fact]
    public void BladeAt_BladeThatWasTried_IsNotSuggestedAgain()
    {
        Job job = Reading.Takes(Pump().Set(E2, """[{"blade": 0.25, "feel": "firm"}]"""), JobPurpose.Next);
        int valve = job.Engine.Valves.Index().Single(v => v.Item.Id == "E2").Index;
        Assert.Contains(0.25, job.Blades);
        Assert.Equal(job.Blades.Where(b => b > 0.25).Min(), RecheckNext.BladeAt(job, valve, 0.26));
        Assert.Null(RecheckNext.Untried(job.Blades, job.Blades, 0.26));
    }

    [Fact]
    public void Of_NoRecheck_Throws()
    {
        Job job = Reading.Takes(Pump().Remove("$.recheck"), JobPurpose.Next);
        Assert.Throws<InvalidOperationException>(() => RecheckNext.Of(job, VerdictResult.Of(job), null));
    }

    private static JobDraft Pump() => Demo.Draft("01-flood-pump.json");

    private static JobDraft Dear(JobDraft draft, double minutes) =>
        draft.Set("$.settings", string.Create(CultureInfo.InvariantCulture, $$"""{"minutes": {"blade": {{minutes}}, "stack": {{minutes}}, "bucket": {{minutes}} } }"""));

    private static (Job Job, VerdictResult Verdict, NextResult Next) Asked(JobDraft draft)
    {
        Job job = Reading.Takes(draft, JobPurpose.Next);
        VerdictResult verdict = VerdictResult.Of(job);
        return (job, verdict, RecheckNext.Of(job, verdict, null));
    }
}
