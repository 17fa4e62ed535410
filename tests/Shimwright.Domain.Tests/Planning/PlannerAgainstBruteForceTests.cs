using Shimwright.Domain.Planning;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

public class PlannerAgainstBruteForceTests(SmallJobs jobs) : IClassFixture<SmallJobs>
{
    /// <summary>Ties are ties within a billionth of a minute.</summary>
    private const double Tie = 1e-9;

    /// <summary>How closely the two have to agree, in minutes and in doubt.</summary>
    private const double Agreement = 1e-6;

    [Fact]
    public void Plan_SmallJobs_StrandsFewestAndCostsTheLeast()
    {
        foreach (SmallJob job in jobs.All)
        {
            ShimPlan chosen = job.Choice.Chosen;
            Assert.Equal(job.Outcomes[0].Stranded, chosen.Stranded.Count);
            Assert.True(
                Math.Abs(job.Least - chosen.Minutes) < Agreement, $"job {job.Seed}: {chosen.Minutes} instead of {job.Least}");
            Assert.Equal(chosen.Minutes, PlanOutcome.Of(chosen, job.Request).Objective(job.Request.SecondRound), Agreement);
        }

        // Both kinds have to be there, or the test looks at half of the rule only.
        Assert.InRange(jobs.All.Count(j => j.Choice.Chosen.Stranded.Count > 0), SmallJobs.Count / 20, SmallJobs.Count * 3 / 4);
    }

    [Fact]
    public void Plan_SmallJobsWithTies_TakesFewestOpenedThenChangedThenBought()
    {
        int tied = 0;
        foreach (SmallJob job in jobs.All)
        {
            double second = job.Request.SecondRound;
            if (job.Outcomes.Any(o => o.Objective(second) > job.Least + Tie && o.Objective(second) < job.Least + Agreement))
            {
                // Whether this is a tie would depend on rounding.
                continue;
            }

            PlanOutcome[] best = [.. job.Outcomes.Where(o => o.Objective(second) <= job.Least + Tie)];
            Assert.Equal(best.Min(o => o.Counts), PlanOutcome.Of(job.Choice.Chosen, job.Request).Counts);
            tied += best.DistinctBy(o => o.Counts).Count() > 1 ? 1 : 0;
        }

        Assert.InRange(tied, SmallJobs.Count / 20, SmallJobs.Count);
    }

    [Fact]
    public void Plan_TwoCornersThatCostTheSame_TakesFewestOpenedThenChangedThenBought()
    {
        int dearerTaken = 0;
        foreach (SmallJob job in jobs.All.Where(j => j.Choice.Alternatives.Count == 2 && j.Request.SecondRound > 0))
        {
            // The redo at which both come to the same objective.
            PlanOutcome[] two = [.. job.Choice.Alternatives.Select(p => PlanOutcome.Of(p, job.Request))];
            double second = (two[1].Minutes - two[0].Minutes) / (two[1].Chance - two[0].Chance);
            PlanCosts costs = job.Request.Costs;
            double redo = second - job.Request.Engine.AccessGroups.Sum(costs.AccessOf);
            if (redo is < 0 or > PlanCosts.Greatest)
            {
                continue;
            }

            var even = new PlanCosts(redo, costs.Access, costs.Swap, costs.MinutesPerCurrency);
            var request = new PlanRequest(job.Request.Check, job.Request.Fitted, job.Request.Stock, even, job.Request.Rules);
            PlanOutcome chosen = PlanOutcome.Of(Planner.Plan(request).Chosen, request);
            Assert.Equal(two.Min(o => o.Counts), chosen.Counts);
            dearerTaken += two[1].Counts.CompareTo(two[0].Counts) < 0 ? 1 : 0;
        }

        Assert.InRange(dearerTaken, 3, SmallJobs.Count);
    }

    [Fact]
    public void Alternatives_SmallJobs_AreTheCornersOfTheLowerHullCheapestFirst()
    {
        // Where a second round costs nothing doubt does not count: see PlannerTieTests.
        SmallJob[] weighed = [.. jobs.All.Where(j => j.Request.SecondRound > 0)];
        int corners = 0;
        foreach (SmallJob job in weighed)
        {
            List<(double NegLogChance, double Minutes)> hull = LowerHull.Of(job.Outcomes.Select(o => (o.NegLogChance, o.Minutes)));
            HullAssert.SameCorners(hull, job.Alternatives, Agreement, $"job {job.Seed}");
            Assert.Contains(job.Choice.Alternatives, p => ReferenceEquals(p, job.Choice.Chosen));
            corners += hull.Count;
        }

        Assert.InRange(corners, 4 * weighed.Length / 3, 100 * weighed.Length);
    }

    [Fact]
    public void Alternatives_SmallJobs_CanAllBeCarriedOut()
    {
        foreach (SmallJob job in jobs.All)
        {
            Assert.All(job.Choice.Alternatives, plan => PlanAssert.CanBeCarriedOut(plan, job.Request, job.Estimate));
        }
    }

    [Fact]
    public void ChanceAll_SmallJobs_IsAProbability() =>
        Assert.All(jobs.All.SelectMany(j => j.Choice.Alternatives), plan => Assert.InRange(plan.ChanceAll, 0, 1));
}
