using Google.OrTools.Sat;

namespace Shimwright.Reference.Solver;

/// <summary>
/// The same choice for a general solver (CP-SAT, one worker): a boolean for every choice of every valve and for every group that is
/// opened. What is concave in the doubt is either a straight line in it (a tangent), or cut into pieces with a boolean each.
/// </summary>
internal sealed class CpSatPlanner
{
    /// <summary>Costs are whole numbers to the solver, in billionths of a minute.</summary>
    private const double PerMinute = 1e9;

    /// <summary>Doubts are whole numbers to the solver, in millionths.</summary>
    private const double PerDoubt = 1e6;

    private readonly PlanModel _plan;
    private readonly CpModel _model = new();
    private readonly BoolVar[][] _taken;
    private readonly BoolVar[] _opened;
    private readonly List<(LinearExpr Of, long Coefficient)> _cost = [];

    private CpSatPlanner(PlanModel plan)
    {
        _plan = plan;
        _taken = [.. plan.Choices.Select((c, v) => c.Select((_, k) => _model.NewBoolVar($"v{v}c{k}")).ToArray())];
        _opened = [.. plan.Access.Select((_, g) => _model.NewBoolVar($"g{g}"))];
        AddGroups();
        AddShims();
    }

    /// <summary>The best plan where a unit of doubt in each group counts a fixed number of minutes.</summary>
    public static PlanValue BestAtRates(PlanModel plan, double work, double toCome, IReadOnlyList<double> rates)
    {
        var solver = new CpSatPlanner(plan);
        solver.CountLinear(work, toCome, (v, c) => rates[plan.GroupOf[v]] * c.Doubt);
        return plan.ValueOf(solver.Solve().Choice);
    }

    /// <summary>
    /// A lower bound of work and what is to come over all plans with fewest stranded: what is concave is replaced by chords over pieces
    /// so short that no chord lies more than <paramref name="sag"/> below it.
    /// </summary>
    public static double LowerBound(PlanModel plan, double sag)
    {
        var solver = new CpSatPlanner(plan);
        solver.CountLinear(1, 1, (_, _) => 0);
        for (int g = 0; g < plan.Access.Count; g++)
        {
            int group = g;
            solver.CountFailing(plan.Access[g], v => plan.GroupOf[v] == group, sag);
        }

        solver.CountFailing(plan.Request.Costs.Redo, _ => true, sag);
        (PlanModel.Choice[] choice, double cost) = solver.Solve();
        return cost - (choice.Count(c => c.IsStranded) * solver.Stranding);
    }

    /// <summary>What a stranded valve counts: more than anything else together.</summary>
    private double Stranding => 1 + (3 * _plan.Access.Sum()) + _plan.Request.Costs.Redo
        + _plan.Choices.Sum(all => all.Max(c => c.Work + (_plan.Request.Again * (1 - c.Chance)) + (200 * c.Doubt)));

    private void CountLinear(double work, double toCome, Func<int, PlanModel.Choice, double> besides)
    {
        foreach ((int g, BoolVar opened) in _opened.Index())
        {
            _cost.Add((opened, Whole(work * _plan.Access[g])));
        }

        double stranding = Stranding;
        foreach ((int v, PlanModel.Choice[] choices) in _plan.Choices.Index())
        {
            foreach ((int k, PlanModel.Choice c) in choices.Index())
            {
                double cost = (work * c.Work) + (toCome * _plan.Request.Again * (1 - c.Chance)) + besides(v, c) + (c.IsStranded ? stranding : 0);
                _cost.Add((_taken[v][k], Whole(cost)));
            }
        }
    }

    /// <summary>scale·(1 - exp(-doubt)) of some valves, from below by chords.</summary>
    private void CountFailing(double scale, Func<int, bool> counts, double sag)
    {
        int[] valves = [.. Enumerable.Range(0, _taken.Length).Where(counts)];
        double greatest = valves.Sum(v => _plan.Choices[v].Max(c => c.Doubt)) + 1e-3;
        if (scale == 0)
        {
            return;
        }

        // Rounded down, so that the bound stays one.
        LinearExpr doubt = LinearExpr.WeightedSum(
            valves.SelectMany(v => _taken[v]), valves.SelectMany(v => _plan.Choices[v].Select(c => (long)Math.Floor(c.Doubt * PerDoubt))));
        List<BoolVar> pieces = [];
        List<LinearExpr> parts = [];
        for (double from = 0; from < greatest;)
        {
            double to = Math.Min(greatest, from + Math.Sqrt(8 * sag * Math.Exp(from) / scale));
            BoolVar piece = _model.NewBoolVar($"piece {from}");
            IntVar part = _model.NewIntVar(0, (long)Math.Ceiling(to * PerDoubt), $"doubt {from}");
            _model.Add(part >= LinearExpr.Term(piece, (long)Math.Floor(from * PerDoubt)));
            _model.Add(part <= LinearExpr.Term(piece, (long)Math.Ceiling(to * PerDoubt)));
            double slope = scale * (Math.Exp(-from) - Math.Exp(-to)) / (to - from);
            _cost.Add((part, (long)Math.Floor(slope / PerDoubt * PerMinute)));
            _cost.Add((piece, Whole((scale * (1 - Math.Exp(-from))) - (slope * from))));
            pieces.Add(piece);
            parts.Add(part);
            from = to;
        }

        _model.AddExactlyOne(pieces);
        _model.Add(LinearExpr.Sum(parts) == doubt);
    }

    /// <summary>A group is opened where something is changed in it; then its kept valves are seated anew.</summary>
    private void AddGroups()
    {
        foreach ((int v, BoolVar[] choices) in _taken.Index())
        {
            BoolVar opened = _opened[_plan.GroupOf[v]];
            _model.AddExactlyOne(choices);
            foreach ((int k, PlanModel.Choice choice) in _plan.Choices[v].Index())
            {
                if (choice.IsChange || choice.IsSeatedAnew)
                {
                    _model.AddImplication(choices[k], opened);
                }
                else if (!choice.IsStranded)
                {
                    _model.AddImplication(choices[k], opened.Not());
                }
            }
        }

        foreach ((int g, BoolVar opened) in _opened.Index())
        {
            _model.Add(LinearExpr.Sum(Users((v, c) => c.IsChange && _plan.GroupOf[v] == g)) >= opened);
        }
    }

    /// <summary>A shim of the drawer is there once for each that lies in it; a shim of the engine once, if its valve gives it up.</summary>
    private void AddShims()
    {
        for (int place = 0; place < _plan.Drawer.Count; place++)
        {
            _model.Add(LinearExpr.Sum(Users((_, c) => c.Drawer == place)) <= _plan.Drawer[place].Count);
        }

        for (int v = 0; v < _taken.Length; v++)
        {
            _model.AddAtMostOne(Users((taker, c) => c.From == v || (taker == v && !c.IsChange)));
        }
    }

    private BoolVar[] Users(Func<int, PlanModel.Choice, bool> uses) =>
        [.. _plan.Choices.SelectMany((choices, v) => choices.Index().Where(c => uses(v, c.Item)).Select(c => _taken[v][c.Index]))];

    private (PlanModel.Choice[] Choice, double Cost) Solve()
    {
        _model.Minimize(LinearExpr.WeightedSum(_cost.Select(c => c.Of), _cost.Select(c => c.Coefficient)));
        var solver = new CpSolver { StringParameters = "num_workers:1 random_seed:1" };
        CpSolverStatus status = solver.Solve(_model);
        return status == CpSolverStatus.Optimal
            ? ([.. _taken.Select((t, v) => _plan.Choices[v][Array.FindIndex(t, solver.BooleanValue)])], solver.ObjectiveValue / PerMinute)
            : throw new InvalidOperationException($"CP-SAT ended with {status}.");
    }

    private static long Whole(double minutes) => (long)Math.Round(minutes * PerMinute);
}
