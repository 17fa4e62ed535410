using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Solver;

/// <summary>
/// The planner against an independent exact solver on random jobs. What is to come is concave in the doubts of the groups. So a plan
/// that is the best is the best for its own tangent too, which is a linear question; and with short chords for what is concave
/// the solver bounds all plans from below.
/// </summary>
[Proof(Formulas.Plan, Evidence.Computed, "An independent exact solver (CP-SAT of OR-Tools) on random jobs.")]
public class PlanAgainstCpSatTests
{
    private const double Relative = 1e-6;

    /// <summary>How far a chord may lie below what it stands for, minutes.</summary>
    private const double Sag = 0.02;

    public static TheoryData<int> Jobs { get; } = [.. Enumerable.Range(1, 40)];

    public static TheoryData<int> FewJobs { get; } = [.. Enumerable.Range(1, 12)];

    [Theory]
    [MemberData(nameof(Jobs))]
    public void Plan_Chosen_IsTheBestForItsOwnTangent(int number)
    {
        (PlanModel model, PlanChoice choice) = Open(number);
        BestForItsOwnTangent(model, choice.Chosen, 1, 1);
    }

    [Theory]
    [MemberData(nameof(FewJobs))]
    public void Plan_Alternatives_AreTheBestForTheirOwnTangentsAtTheRatesOfTheirNeighbours(int number)
    {
        (PlanModel model, PlanChoice choice) = Open(number);
        foreach ((ShimPlan less, ShimPlan more) in choice.Alternatives.Zip(choice.Alternatives.Skip(1)))
        {
            double work = less.ToComeMinutes - more.ToComeMinutes;
            double toCome = more.WorkMinutes - less.WorkMinutes;
            double greater = Math.Max(work, toCome);
            BestForItsOwnTangent(model, less, work / greater, toCome / greater);
            BestForItsOwnTangent(model, more, work / greater, toCome / greater);
        }
    }

    [Theory, Long]
    [MemberData(nameof(FewJobs))]
    public void Plan_Chosen_IsNoDearerThanTheBoundByChords(int number)
    {
        (PlanModel model, PlanChoice choice) = Open(number);
        double bound = CpSatPlanner.LowerBound(model, Sag);
        int terms = 1 + model.Access.Count;
        Assert.InRange(choice.Chosen.Minutes, bound - 1e-3, bound + (terms * Sag) + 1e-2);
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

    private static (PlanModel Model, PlanChoice Choice) Open(int number)
    {
        PlanRequest request = PlanJob.Make(number);
        EngineEstimate estimate = EngineEstimate.From(request.Check, request.FinestChange);
        return (new PlanModel(request, estimate), Planner.Plan(request, estimate));
    }

    private static void BestForItsOwnTangent(PlanModel model, ShimPlan plan, double work, double toCome)
    {
        double[] doubts = [.. model.Access.Select((_, g) => plan.Valves
            .Where((v, i) => model.GroupOf[i] == g && !v.IsStranded).Sum(v => -Math.Log(v.Chance!.Value)))];
        double[] rates = [.. model.Access.Select((access, g) =>
            toCome * ((access * Math.Exp(-doubts[g])) + (model.Request.Costs.Redo * Math.Exp(-doubts.Sum()))))];
        PlanValue best = CpSatPlanner.BestAtRates(model, work, toCome, rates);
        Assert.Equal(best.Stranded, plan.Stranded.Count);

        // On the tangent at the plan, which lies above everything, the plan itself is as cheap as anything.
        double its = (work * plan.WorkMinutes) + (toCome * plan.ToComeMinutes);
        double others = (work * best.Work) + (toCome * Linear(model, best, doubts));
        Assert.True(others >= its - (Relative * Math.Max(1, its)), $"{others} on the tangent, {its} for the plan");
        Assert.True((work * best.Work) + (toCome * best.ToCome) >= its - (Relative * Math.Max(1, its)));
    }

    /// <summary>What is to come of a plan, straight on from the doubts of another.</summary>
    private static double Linear(PlanModel model, PlanValue plan, double[] from)
    {
        double redo = model.Request.Costs.Redo;
        double value = plan.ToCome - (redo * (1 - Math.Exp(-plan.Doubts.Sum())))
            + (redo * (1 - Math.Exp(-from.Sum()) + (Math.Exp(-from.Sum()) * (plan.Doubts.Sum() - from.Sum()))));
        foreach ((int g, double access) in model.Access.Index())
        {
            value += access * (Math.Exp(-plan.Doubts[g]) - Math.Exp(-from[g]) + (Math.Exp(-from[g]) * (plan.Doubts[g] - from[g])));
        }

        return value;
    }
}
