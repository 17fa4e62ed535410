using Google.OrTools.Sat;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;

namespace Shimwright.Benchmarks;

/// <summary>
/// The same choice for a general solver (CP-SAT, one worker): a boolean for every option of every valve and for
/// every group that is opened, linear costs at one exchange rate λ of minutes against doubt. It is given the options.
/// </summary>
internal sealed class CpSatPlan
{
    /// <summary>Costs are whole numbers to the solver, in units of a billionth of a minute.</summary>
    private const double PerMinute = 1e9;

    private const double StrandedMinutes = 1e4;
    private readonly PlanRequest _request;
    private readonly OptionTable _options;
    private readonly CpModel _model = new();
    private readonly List<(BoolVar Literal, double NegLogChance, double Minutes)> _literals = [];

    public CpSatPlan(PlanRequest request, OptionTable options)
    {
        _request = request;
        _options = options;
        Build();
    }

    /// <summary>
    /// The slope of the objective at the chosen plan. The objective is concave in the doubt, so its tangent there lies
    /// above it everywhere, and the plan that is best for the objective is best for the tangent too.
    /// </summary>
    public static double LambdaOf(PlanRequest request, PlanPoint chosen) => request.SecondRound * Math.Exp(-chosen.NegLogChance);

    /// <summary>The proven optimum at λ: its doubt, and its minutes, in which a stranded valve counts ten thousand.</summary>
    public (double NegLogChance, double Minutes) Solve(double lambda)
    {
        _model.Minimize(LinearExpr.WeightedSum(
            _literals.Select(l => l.Literal),
            _literals.Select(l => (long)Math.Round(((lambda * l.NegLogChance) + l.Minutes) * PerMinute))));
        var solver = new CpSolver { StringParameters = "num_workers:1" };
        CpSolverStatus status = solver.Solve(_model);
        if (status != CpSolverStatus.Optimal)
        {
            throw new InvalidOperationException($"CP-SAT ended with {status}, not with the optimum.");
        }

        double doubt = 0, minutes = 0;
        foreach ((BoolVar literal, double its, double costs) in _literals)
        {
            if (solver.BooleanValue(literal))
            {
                (doubt, minutes) = (doubt + its, minutes + costs);
            }
        }

        return (doubt, minutes);
    }

    private void Build()
    {
        Engine engine = _request.Engine;
        Dictionary<string, BoolVar> opened = engine.AccessGroups.ToDictionary(
            g => g, g => Literal(g, 0, _request.Costs.AccessOf(g)));
        List<BoolVar>[] takers = [.. _options.Pieces.Select(_ => new List<BoolVar>())];
        Dictionary<int, int> pieceOfColumn = _options.Pieces.Index().ToDictionary(p => p.Item.First, p => p.Index);
        BoolVar[] stays = new BoolVar[engine.Valves.Count];
        for (int v = 0; v < stays.Length; v++)
        {
            stays[v] = Literal($"stay {v}", _options.Kept[v]);
            List<BoolVar> choices = [stays[v]];
            foreach (SharedOption shared in _options.Shared[v])
            {
                BoolVar taken = Literal($"fit {v}", shared.Option);
                takers[pieceOfColumn[shared.Columns.First]].Add(taken);
                choices.Add(taken);
            }

            choices.AddRange(_options.Private[v].Select(o => Literal($"buy {v}", o)));
            _model.AddExactlyOne(choices);
            _model.Add(LinearExpr.Sum(choices.Skip(1)) <= opened[engine.Valves[v].Access]);
        }

        foreach ((int p, OptionTable.Piece piece) in _options.Pieces.Index().Where(p => takers[p.Index].Count > 0))
        {
            LinearExpr atHand = piece.FromValve is { } owner ? 1 - stays[owner] : LinearExpr.Constant(piece.Count);
            _model.Add(LinearExpr.Sum(takers[p]) <= atHand);
        }
    }

    private BoolVar Literal(string name, ValveOption option) =>
        Literal(name, option.NegLogChance, option.Minutes + (option.IsStranded ? StrandedMinutes : 0));

    private BoolVar Literal(string name, double doubt, double minutes)
    {
        BoolVar literal = _model.NewBoolVar(name);
        _literals.Add((literal, doubt, minutes));
        return literal;
    }
}
