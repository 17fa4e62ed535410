using Google.OrTools.Sat;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;

namespace Shimwright.Benchmarks;

/// <summary>
/// The same choice for a general solver (CP-SAT, one worker): a boolean for every option of every valve and for
/// every group that is opened, what is concave in the doubt replaced by its tangent at a plan. It is given the options. No plan costs less than the best on a tangent at the best plan.
/// </summary>
internal sealed class CpSatPlan
{
    /// <summary>Costs are whole numbers to the solver, in units of a billionth of a minute.</summary>
    private const double PerMinute = 1e9;

    private const double StrandedMinutes = 1e4;
    private readonly PlanRequest _request;
    private readonly OptionTable _options;
    private readonly CpModel _model = new();
    private readonly List<(BoolVar Literal, double Minutes)> _literals = [];

    private readonly double[] _rates;
    private readonly double _offset;

    public CpSatPlan(PlanRequest request, OptionTable options, PlanPoint at)
    {
        _request = request;
        _options = options;
        var ledger = new PlanLedger(request);
        PlanTally tally = ledger.Of(at.Choice);
        _rates = new double[ledger.Access.Length];
        _offset = Height(ledger.Redo, tally.Doubt);
        for (int g = 0; g < _rates.Length; g++)
        {
            _rates[g] = (ledger.Redo * Math.Exp(-tally.Doubt)) + (ledger.Access[g] * Math.Exp(-ledger.GroupDoubt[g]));
            _offset += Height(ledger.Access[g], ledger.GroupDoubt[g]);
        }

        Build();
    }

    /// <summary>The proven optimum on the tangent, in which a stranded valve counts ten thousand minutes.</summary>
    public double Solve()
    {
        _model.Minimize(LinearExpr.WeightedSum(
            _literals.Select(l => l.Literal), _literals.Select(l => (long)Math.Round(l.Minutes * PerMinute))));
        var solver = new CpSolver { StringParameters = "num_workers:1" };
        CpSolverStatus status = solver.Solve(_model);
        if (status != CpSolverStatus.Optimal)
        {
            throw new InvalidOperationException($"CP-SAT ended with {status}, not with the optimum.");
        }

        return _offset + _literals.Where(l => solver.BooleanValue(l.Literal)).Sum(l => l.Minutes);
    }

    /// <summary>The tangent of scale·(1 - exp(-doubt)) at a doubt, where it meets doubt 0.</summary>
    private static double Height(double scale, double doubt) =>
        scale * (PlanLedger.Failing(doubt) - (doubt * Math.Exp(-doubt)));

    private void Build()
    {
        Engine engine = _request.Engine;
        Dictionary<string, BoolVar> opened = engine.AccessGroups.ToDictionary(
            g => g, g => Literal(g, _request.Costs.AccessOf(g)));
        List<string> groups = [.. engine.AccessGroups];
        List<BoolVar>[] takers = [.. _options.Pieces.Select(_ => new List<BoolVar>())];
        Dictionary<int, int> pieceOfColumn = _options.Pieces.Index().ToDictionary(p => p.Item.First, p => p.Index);
        BoolVar[] stays = new BoolVar[engine.Valves.Count];
        BoolVar[][] kept = new BoolVar[engine.Valves.Count][];
        List<BoolVar>[] changed = [.. groups.Select(_ => new List<BoolVar>())];
        for (int v = 0; v < stays.Length; v++)
        {
            double rate = _rates[groups.IndexOf(engine.Valves[v].Access)];
            BoolVar open = opened[engine.Valves[v].Access];
            stays[v] = Literal($"stay {v}", _options.Kept[v], rate);
            BoolVar seated = Literal($"seated {v}", _options.Seated[v], rate);
            _model.AddImplication(seated, open);
            _model.AddImplication(stays[v], open.Not());
            List<BoolVar> changes = [];
            foreach (SharedOption shared in _options.Shared[v])
            {
                BoolVar taken = Literal($"fit {v}", shared.Option, rate);
                takers[pieceOfColumn[shared.Columns.First]].Add(taken);
                changes.Add(taken);
            }

            changes.AddRange(_options.Private[v].Select(o => Literal($"buy {v}", o, rate)));
            _model.AddExactlyOne([stays[v], seated, .. changes]);
            _model.Add(LinearExpr.Sum(changes) <= open);
            changed[groups.IndexOf(engine.Valves[v].Access)].AddRange(changes);
            kept[v] = [stays[v], seated];
        }

        for (int g = 0; g < changed.Length; g++)
        {
            _model.Add(LinearExpr.Sum(changed[g]) >= opened[groups[g]]);
        }

        foreach ((int p, ShimSupply.Piece piece) in _options.Pieces.Index().Where(p => takers[p.Index].Count > 0))
        {
            LinearExpr atHand = piece.FromValve is { } owner ? 1 - LinearExpr.Sum(kept[owner]) : LinearExpr.Constant(piece.Count);
            _model.Add(LinearExpr.Sum(takers[p]) <= atHand);
        }
    }

    private BoolVar Literal(string name, ValveOption option, double rate) => Literal(
        name, option.Minutes + (_request.Again * option.Failing) + (rate * option.Doubt) + (option.IsStranded ? StrandedMinutes : 0));

    private BoolVar Literal(string name, double minutes)
    {
        BoolVar literal = _model.NewBoolVar(name);
        _literals.Add((literal, minutes));
        return literal;
    }
}
