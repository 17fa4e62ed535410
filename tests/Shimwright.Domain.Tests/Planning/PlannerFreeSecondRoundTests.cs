using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>A bench to which a second round costs nothing: minutes alone decide, then the tie rules, then the doubt.</summary>
public class PlannerFreeSecondRoundTests
{
    private const int Jobs = 150;
    private const double Agreement = 1e-6;

    [Fact]
    public void Plan_SecondRoundFree_TakesFewestMinutesThenTheTieRulesThenTheSurest()
    {
        int behindTheHull = 0;
        foreach (PlanRequest request in Requests())
        {
            IReadOnlyList<PlanOutcome> all = BruteForce.Outcomes(request, Made.EstimateFor(request));
            PlanOutcome chosen = PlanOutcome.Of(Planner.Plan(request).Chosen, request);

            double least = all.Min(o => o.Minutes);
            PlanOutcome[] cheapest = [.. all.Where(o => o.Minutes <= least + Agreement)];
            PlanOutcome[] first = [.. cheapest.Where(o => o.Counts == cheapest.Min(c => c.Counts))];
            Assert.Equal(least, chosen.Minutes, Agreement);
            Assert.Equal(first[0].Counts, chosen.Counts);
            Assert.Equal(first.Min(o => o.NegLogChance), chosen.NegLogChance, Agreement);
            behindTheHull += chosen.NegLogChance > cheapest.Min(o => o.NegLogChance) + Agreement ? 1 : 0;
        }

        Assert.InRange(behindTheHull, 5, Jobs);
    }

    [Fact]
    public void Alternatives_SecondRoundFree_AreTheChosenPlanAndTheCorners()
    {
        foreach (PlanRequest request in Requests())
        {
            IReadOnlyList<PlanOutcome> all = BruteForce.Outcomes(request, Made.EstimateFor(request));
            List<(double NegLogChance, double Minutes)> hull = LowerHull.Of(all.Select(o => (o.NegLogChance, o.Minutes)));
            PlanChoice choice = Planner.Plan(request);

            PlanOutcome[] found = [.. choice.Alternatives.Select(p => PlanOutcome.Of(p, request))];
            Assert.Equal(found.OrderBy(o => o.Minutes).Select(o => o.Minutes), found.Select(o => o.Minutes));
            PlanOutcome chosen = PlanOutcome.Of(choice.Chosen, request);
            bool isCorner = hull.Any(h => Math.Abs(h.NegLogChance - chosen.NegLogChance) < Agreement);
            IEnumerable<PlanOutcome> corners = isCorner
                ? found
                : choice.Alternatives.Where(p => p != choice.Chosen).Select(p => PlanOutcome.Of(p, request));
            HullAssert.SameCorners(hull, [.. corners.Select(o => (o.NegLogChance, o.Minutes))], Agreement, request.Engine.Name);
        }
    }

    [Fact]
    public void Alternatives_SecondRoundFree_NameNoPlanTwice()
    {
        // Nothing may be changed here, so there is one plan.
        EngineCheck check = Made.Check(Made.Value(0.15));
        var request = new PlanRequest(check, [Made.Marked(2.5)], costs: new PlanCosts(redo: 0));
        Assert.Single(Planner.Plan(request).Alternatives);
    }

    private static IEnumerable<PlanRequest> Requests()
    {
        for (int seed = 0; seed < Jobs; seed++)
        {
            PlanRequest job = RandomJob.Draw(1000 + seed);
            var free = new PlanCosts(redo: 0, swap: job.Costs.Swap, minutesPerCurrency: job.Costs.MinutesPerCurrency);
            yield return new PlanRequest(job.Check, job.Fitted, job.Stock, free, job.Rules);
        }
    }
}
