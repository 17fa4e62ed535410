using Google.OrTools.Sat;

namespace Shimwright.Reference.Solver;

/// <summary>
/// The same linear problem, solved to proven optimality by a solver of another kind: Google OR-Tools, CP-SAT.
/// Costs are whole millionths of a minute; a stranded valve outweighs everything else.
/// </summary>
internal static class CpSatPlanner
{
    private const double Scale = 1e6;

    /// <summary>A plan with fewest stranded valves, then the least doubt · minutesPerDoubt + minutes.</summary>
    public static PlanValue Best(PlanModel plan, double minutesPerDoubt)
    {
        var model = new CpModel();
        BoolVar[][] taken = [.. plan.Choices.Select((c, v) => c.Select((_, k) => model.NewBoolVar($"v{v}c{k}")).ToArray())];
        BoolVar[] opened = [.. plan.Access.Select((_, g) => model.NewBoolVar($"g{g}"))];
        foreach ((int v, BoolVar[] choices) in taken.Index())
        {
            model.AddExactlyOne(choices);
            model.AddImplication(choices[0].Not(), opened[plan.GroupOf[v]]);
        }

        AddShims(model, plan, taken);
        model.Minimize(LinearExpr.WeightedSum(
            taken.SelectMany(t => t).Concat(opened),
            plan.Choices.SelectMany(c => Costs(plan, c, minutesPerDoubt)).Concat(plan.Access.Select(Whole))));

        var solver = new CpSolver { StringParameters = "num_workers:1 random_seed:1" };
        CpSolverStatus status = solver.Solve(model);
        return status == CpSolverStatus.Optimal
            ? plan.ValueOf([.. taken.Select((t, v) => plan.Choices[v][Array.FindIndex(t, solver.BooleanValue)])])
            : throw new InvalidOperationException($"CP-SAT ended with {status}.");
    }

    /// <summary>A shim of the drawer is there once for each that lies in it; a shim of the engine once, if its valve gives it up.</summary>
    private static void AddShims(CpModel model, PlanModel plan, BoolVar[][] taken)
    {
        for (int place = 0; place < plan.Drawer.Count; place++)
        {
            model.Add(LinearExpr.Sum(Users(plan, taken, c => c.Drawer == place)) <= plan.Drawer[place].Count);
        }

        for (int v = 0; v < taken.Length; v++)
        {
            model.AddAtMostOne(Users(plan, taken, c => c.From == v).Append(taken[v][0]));
        }
    }

    private static IEnumerable<BoolVar> Users(PlanModel plan, BoolVar[][] taken, Func<PlanModel.Choice, bool> uses) =>
        plan.Choices.SelectMany((choices, v) => choices.Index().Where(c => uses(c.Item)).Select(c => taken[v][c.Index]));

    private static IEnumerable<long> Costs(PlanModel plan, PlanModel.Choice[] choices, double minutesPerDoubt)
    {
        double greatest = plan.Access.Sum()
            + plan.Choices.Sum(all => all.Max(c => (minutesPerDoubt * c.NegLogChance) + c.Minutes));
        return choices.Select(c => Whole((minutesPerDoubt * c.NegLogChance) + c.Minutes + (c.IsStranded ? greatest + 1 : 0)));
    }

    private static long Whole(double minutes) => (long)Math.Round(minutes * Scale);
}
