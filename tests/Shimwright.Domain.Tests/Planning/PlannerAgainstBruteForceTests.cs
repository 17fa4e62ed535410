using Shimwright.Domain.Planning;
using Shimwright.Domain.Shims;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

[Proof(Formulas.Plan, Evidence.Computed, "Every choice of small jobs tried.")]
public class PlannerAgainstBruteForceTests(SmallJobs jobs) : IClassFixture<SmallJobs>
{
    /// <summary>Ties are ties within a billionth of a minute.</summary>
    private const double Tie = 1e-9;

    /// <summary>How closely the two have to agree, in minutes of work and to come.</summary>
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
            Assert.Equal(chosen.Minutes, PlanOutcome.Of(chosen, job.Request).Minutes, Agreement);
            Assert.Equal(chosen.WorkMinutes, PlanOutcome.Of(chosen, job.Request).Work, Agreement);
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
            if (job.Outcomes.Any(o => o.Minutes > job.Least + Tie && o.Minutes < job.Least + Agreement))
            {
                // Whether this is a tie would depend on rounding.
                continue;
            }

            PlanOutcome[] best = [.. job.Outcomes.Where(o => o.Minutes <= job.Least + Tie)];
            Assert.Equal(best.Min(o => o.Counts), PlanOutcome.Of(job.Choice.Chosen, job.Request).Counts);
            tied += best.DistinctBy(o => o.Counts).Count() > 1 ? 1 : 0;
        }

        Assert.InRange(tied, SmallJobs.Count / 20, SmallJobs.Count);
    }

    [Fact]
    public void Alternatives_SmallJobs_AreTheCornersOfTheLowerHullCheapestFirst()
    {
        int corners = 0;
        foreach (SmallJob job in jobs.All)
        {
            List<(double ToCome, double Work)> hull = LowerHull.Of(job.Outcomes.Select(o => o.Point));
            HullAssert.SameCorners(hull, job.Alternatives, Agreement, $"job {job.Seed}", PlanOutcome.Of(job.Choice.Chosen, job.Request).Point);
            Assert.Contains(job.Choice.Alternatives, p => ReferenceEquals(p, job.Choice.Chosen));
            corners += hull.Count;
        }

        Assert.InRange(corners, 4 * SmallJobs.Count / 3, 100 * SmallJobs.Count);
    }

    /// <summary>
    /// Which of two valves has the drawer's shim and which a bought one of the same size is no difference; a processor's rounding must not decide it.
    /// The small jobs with a few sizes, each once in the drawer and for sale.
    /// </summary>
    [Fact]
    public void Plan_ValvesThatTakeOneSize_GivesTheDrawersToTheOneNamedFirst()
    {
        Thickness[] sizes = [.. Enumerable.Range(0, 5).Select(i => Made.Marked(Math.Round(2.40 + (0.05 * i), 2)))];
        Stock stock = new([.. sizes.Select(t => new DrawerShims(t, 1))], [.. sizes.Select(t => new PurchasableSize(t, 6))]);
        int pairs = 0;
        foreach (PlanRequest job in jobs.All.Select(j => j.Request))
        {
            PlanChoice choice = Planner.Plan(new(job.Check, job.Fitted, stock, job.Costs, job.Rules));
            foreach (PlannedValve[] valves in choice.Alternatives.Select(p => p.Valves.Where(v => v.Action == ValveAction.Fit).ToArray()))
            {
                for (int j = 1; j < valves.Length; j++)
                {
                    PlannedValve[] before = [.. valves[..j].Where(v => v.To == valves[j].To)];
                    pairs += before.Any(v => v.Source == ShimSource.Drawer) && valves[j].Source == ShimSource.Buy ? 1 : 0;
                    Assert.False(valves[j].Source == ShimSource.Drawer && before.Any(v => v.Source == ShimSource.Buy));
                }
            }
        }

        Assert.InRange(pairs, SmallJobs.Count / 20, 100 * SmallJobs.Count);
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
