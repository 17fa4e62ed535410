using Shimwright.Domain.Advice;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Tests.Planning;
using Shimwright.Domain.Tests.Readings;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Advice;

[Proof(Formulas.Worth, Evidence.Computed, "All outcomes planned by trying everything.")]
public class TrialWorthTests(ITestOutputHelper output)
{
    private static readonly double[] Blades = [0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23];

    /// <summary>Every outcome planned from by trying all choices: the worth of a blade, a stack or a bucket is the same to a millionth of a minute.</summary>
    [Fact]
    [Long]
    public void Saving_SmallJobs_IsThatOfAllOutcomesPlannedByBruteForce()
    {
        for (int seed = 0; seed < 100; seed++)
        {
            var now = new Outlook(RandomJob.Draw(seed));
            var chance = new SeededChance(seed);
            int valve = chance.Whole(0, now.Request.Engine.Valves.Count - 1);
            double blade = chance.Pick(Blades);
            bool isBucket = chance.Happens(0.2);
            IReadOnlyList<AdvisedOutcome> outcomes = isBucket ? TrialWorth.OfBucket(now, valve) : TrialWorth.OfBlade(now, valve, blade, seed % 5 == 0 ? 2 : 1);
            Assert.Equal(1, outcomes.Sum(o => o.Chance), 1e-6);
            double expected = ByBruteForce(now.Request, now.Estimate);
            Assert.Equal(expected, now.Minutes, 1e-6);
            foreach (AdvisedOutcome outcome in outcomes)
            {
                ValveReadings read = outcome.Feel is { } feel
                    ? new([new BladeTrial(blade, feel, seed % 5 == 0 ? 2 : 1)])
                    : new(bucketTurns: [outcome.Turns!.Value]);
                EngineEstimate after = now.Estimate.With(valve, read);
                double minutes = ByBruteForce(now.Request.With(after.Check), after);
                Assert.Equal(minutes, outcome.Minutes, 1e-6);
                expected -= outcome.Chance * minutes;
            }

            Assert.Equal(Math.Max(0, expected), TrialWorth.Saving(now, outcomes), 1e-6);
        }
    }

    /// <summary>The cheapest choice of a part strands more valves than it must: the search took it for the best of the part, and divided for ever.</summary>
    [Fact]
    public void MinutesWith_CheapestChoiceStrandsMoreThanItMust_Ends()
    {
        var now = new Outlook(RandomJob.Draw(121));
        EngineEstimate after = now.Estimate.With(3, Made.Felt((0.10, Feel.No)));
        Assert.Equal(ByBruteForce(now.Request.With(after.Check), after), now.MinutesWith(after), 1e-6);
    }

    /// <summary>Changing only what a reading changes gives what estimating everything anew gives.</summary>
    [Fact]
    public void With_OneReadingMore_IsTheEstimateOfTheWholeCheck()
    {
        for (int seed = 0; seed < 30; seed++)
        {
            EngineCheck check = RandomCheck.Draw(seed);
            var chance = new SeededChance(seed);
            int valve = chance.Whole(0, check.Readings.Count - 1);
            ValveReadings more = chance.Happens(0.3) ? new(bucketTurns: [true]) : Made.Felt((chance.Pick(Blades), chance.Pick(Feel.Firm, Feel.Light)));
            EngineEstimate after = EngineEstimate.Open(check, 0.004).With(valve, more);
            EngineEstimate anew = EngineEstimate.From(check.With(valve, more), 0.004);
            foreach ((ClearanceDistribution a, ClearanceDistribution b) in after.Valves.Zip(anew.Valves))
            {
                Assert.Equal(b.InBand, a.InBand, 4e-4);
                Assert.Equal(b.Mean, a.Mean, 1e-4);
            }
        }
    }

    /// <summary>The chance of a feel against plain sums over clearances, losses and offsets.</summary>
    [Fact]
    [Long]
    public void ChanceOf_AFeel_IsThatOfThePlainSums()
    {
        for (int seed = 300; seed < 303; seed++)
        {
            EngineCheck check = RandomCheck.Draw(seed);
            EngineEstimate now = EngineEstimate.Open(check, double.PositiveInfinity);
            var slow = new SlowPosterior(check);
            double[] chances = [.. Enum.GetValues<Feel>().Select(f => Math.Exp(now.With(0, Made.Felt((0.12, f))).LogEvidence - now.LogEvidence))];
            Assert.Equal(1, chances.Sum(), 1e-6);
            if (check.Readings[0].IsEmpty && check.Feel.Doubt < 0.001)
            {
                double no = slow.Cells(0).Sum(c => c.Mass * SlowLaw.ChanceOf(Feel.No, c.Clearance + check.ShiftAt(0).Millimetres - 0.12, 1, check.Feel));
                Assert.Equal(no, chances[0], 1e-3);
            }
        }
    }

    /// <summary>No reading saves more than what the job comes to now less what it comes to at least with the valve sure; and that says something.</summary>
    [Fact]
    public void LeastAfter_RealisticJobs_IsNoMoreThanWhatIsExpectedAfterAReading()
    {
        List<double> shares = [];
        foreach (PlanRequest request in Enumerable.Range(0, 40).Select(seed => RealisticJob.Draw(seed)).Where(r => r.Engine.Valves.Count is 8 or 12).Take(8))
        {
            var now = new Outlook(request);
            for (int v = 0; v < request.Engine.Valves.Count; v += 3)
            {
                double blade = Blades.MinBy(b => Math.Abs(b - now.Estimate.Valves[v].Mean));
                double saves = TrialWorth.Saving(now, TrialWorth.OfBlade(now, v, blade, 1));
                Assert.True(saves <= now.Minutes - now.LeastAfter(v, 0) + 1e-9, $"{saves} minutes, at most {now.Minutes - now.LeastAfter(v, 0)}");
                Assert.Equal(0, now.LeastAfter(v, double.NegativeInfinity));
                shares.Add(now.LeastAfter(v, 0) / now.Minutes);
            }
        }

        output.WriteLine($"{shares.Count} valves; at least {shares.Average():0.00} of the minutes are left");
        Assert.True(shares.Average() > 0.5);
    }

    private static double ByBruteForce(PlanRequest request, EngineEstimate estimate) => BruteForce.Outcomes(request, estimate)
        .MinBy(o => (Math.Round(o.Minutes, 9), o.Opened, o.Changed, o.Bought)).MinutesWithStranded;
}
