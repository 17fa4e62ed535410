using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Reference.Solver;

/// <summary>
/// The planner against an independent exact solver on random jobs. The objective second·(1 - e^-L) + minutes is concave in
/// the doubt L, so its optimum is the optimum of λ·L + minutes for some λ: both solvers are asked the linear question.
/// </summary>
public class PlanAgainstCpSatTests
{
    private const double Relative = 1e-6;

    public static TheoryData<int> Jobs { get; } = [.. Enumerable.Range(1, 40)];

    [Theory]
    [MemberData(nameof(Jobs))]
    public void Best_SomeMinutesPerDoubt_AgreesWithCpSat(int number)
    {
        (PlanModel model, PlanSearch search, _) = Open(number);
        double second = model.Request.SecondRound;

        foreach (double lambda in (double[])[0, 0.1 * second, second, 20 * second])
        {
            PlanValue found = Value(model, search.Best(Weighing.MinutesPerDoubt(lambda, search.Scale)));
            PlanValue expected = CpSatPlanner.Best(model, lambda);

            Assert.Equal(expected.Stranded, found.Stranded);
            AssertClose(expected.Linear(lambda), found.Linear(lambda));
        }
    }

    [Theory]
    [MemberData(nameof(Jobs))]
    public void Plan_Chosen_IsNoWorseThanAnyCpSatPlanAndBestAtOneRate(int number)
    {
        (PlanModel model, _, EngineEstimate estimate) = Open(number);
        double second = model.Request.SecondRound;

        ShimPlan chosen = Planner.Plan(model.Request, estimate).Chosen;
        PlanValue found = Value(chosen, second);

        List<PlanValue> hull = CpSatHull.Corners(model);
        Assert.All(hull, corner => Assert.Equal(corner.Stranded, found.Stranded));
        AssertClose(hull.Min(corner => corner.Objective(second)), chosen.Minutes);

        // The tangent of the objective at the chosen plan: nothing may lie below it.
        double rate = second * Math.Exp(-found.NegLogChance);
        AssertClose(CpSatPlanner.Best(model, rate).Linear(rate), found.Linear(rate));
    }

    [Theory]
    [MemberData(nameof(Jobs))]
    public void Plan_Alternatives_AreTheCornersThatCpSatFinds(int number)
    {
        (PlanModel model, _, EngineEstimate estimate) = Open(number);

        IEnumerable<PlanValue> found = Planner.Plan(model.Request, estimate).Alternatives
            .Select(p => Value(p, model.Request.SecondRound));

        Assert.Equal(CpSatHull.Corners(model).Select(Rounded).Order(), found.Select(Rounded).Order());

        static (double Minutes, double NegLogChance) Rounded(PlanValue plan) => (Math.Round(plan.Minutes, 4), Math.Round(plan.NegLogChance, 4));
    }

    [Fact]
    public void Make_Jobs_CoverSwapsStrandedValvesAndShops()
    {
        ShimPlan[] plans = [.. Jobs.Select(j => Planner.Plan(PlanJob.Make(j.Data)).Chosen)];

        Assert.Contains(plans, p => p.Stranded.Count > 0);
        Assert.Contains(plans, p => p.Stranded.Count == 0);
        Assert.Contains(plans, p => p.Bought.Count > 0);
        Assert.Contains(plans, p => p.Opened.Count > 2);
        Assert.Contains(plans, p => p.Valves.Any(v => v.Source == ShimSource.Engine));
    }

    private static (PlanModel Model, PlanSearch Search, EngineEstimate Estimate) Open(int number)
    {
        PlanRequest request = PlanJob.Make(number);
        EngineEstimate estimate = EngineEstimate.From(request.Check, request.FinestChange);
        return (new PlanModel(request, estimate), new PlanSearch(request, new OptionTable(request, estimate)), estimate);
    }

    private static PlanValue Value(ShimPlan plan, double second)
    {
        double doubt = plan.Valves.Where(v => !v.IsStranded).Sum(v => -Math.Log(v.Chance!.Value));
        return new(plan.Stranded.Count, doubt, plan.Minutes - (second * -double.ExpM1(-doubt)));
    }

    private static PlanValue Value(PlanModel model, ValveOption[] plan)
    {
        double access = plan.Index().Where(o => o.Item.IsChange).Select(o => model.GroupOf[o.Index]).Distinct().Sum(g => model.Access[g]);
        return new(plan.Count(o => o.IsStranded), plan.Sum(o => o.NegLogChance), plan.Sum(o => o.Minutes) + access);
    }

    private static void AssertClose(double expected, double found) =>
        Assert.Equal(expected, found, Relative * Math.Max(1, Math.Abs(expected)));
}
