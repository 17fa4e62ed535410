namespace Shimwright.Domain.Planning;

/// <summary>
/// Gives out shims to valves where a unit of doubt counts a fixed number of minutes in each group, and the group's failing what it counts
/// if only that valve changes. The cost of the assignment is a lower bound where the numbers are slopes of chords and nothing
/// else counts; its dual prices say what each shim is worth to the others.
/// </summary>
internal sealed class ShimAssignment
{
    private readonly ValveMoves[] _moves;
    private readonly PlanLedger _ledger;
    private readonly AssignmentSolver<double> _solver;
    private readonly ArcList _arcs = new();
    private readonly int[] _starts;
    private readonly int[] _arcOfRow;
    private readonly double[] _shares;
    private readonly double[] _seating;
    private readonly double[] _opening;
    private readonly int _columns;
    private double[]? _rest;
    private double[] _lift = [];

    public ShimAssignment(ValveMoves[] moves, PlanLedger ledger, int columns)
    {
        (_moves, _ledger, _columns) = (moves, ledger, columns);
        _solver = new AssignmentSolver<double>(columns);
        _starts = new int[moves.Length + 1];
        _arcOfRow = new int[moves.Length];
        _shares = new double[moves.Length];
        _seating = new double[moves.Length];
        _opening = new double[ledger.Access.Length];
        Choice = new int[moves.Length];
    }

    /// <summary>What each valve does: a change by its place, or -1.</summary>
    public int[] Choice { get; }

    /// <summary>What it costs.</summary>
    public double Cost { get; private set; }

    /// <summary>How many were solved, for benchmarks and tests.</summary>
    public int Solved { get; private set; }

    /// <summary>Arcs and columns looked at so far.</summary>
    public double Taken => _solver.Taken + (_moves.Length * (double)Solved);

    /// <summary>Solves it; false where some valve can have nothing.</summary>
    /// <param name="node">The part of all plans.</param>
    /// <param name="weighed">What everything counts.</param>
    /// <param name="rates">What a unit of doubt counts in each group.</param>
    /// <param name="prices">Prices of shims, by which undecided groups are opened.</param>
    /// <param name="rest">For each valve the doubt of the others of its group; null where the group's failing does not count.</param>
    public bool Solve(SearchNode node, WeighedMoves weighed, ReadOnlySpan<double> rates, ShimPrices? prices, double[]? rest = null)
    {
        Solved++;
        (_rest, _lift) = (rest, weighed.Lift);
        Cost = Opening(node, weighed, rates, prices);
        _arcs.Clear();
        for (int v = 0; v < _moves.Length; v++)
        {
            _starts[v] = _arcs.Count;
            AddRow(v, node, weighed, rates[_ledger.GroupOf[v]]);
        }

        _starts[_moves.Length] = _arcs.Count;
        if (!_solver.Solve(_starts, _arcs.Columns, _arcs.Costs, _arcOfRow))
        {
            return false;
        }

        for (int v = 0; v < _moves.Length; v++)
        {
            Cost += _arcs.Costs[_arcOfRow[v]];
            Choice[v] = _arcs.MoveOf(_arcOfRow[v]);
        }

        return true;
    }

    /// <summary>The dual prices of the assignment that was solved last.</summary>
    public ShimPrices Prices()
    {
        double[] prices = new double[_columns];
        double sum = 0;
        for (int c = 0; c < prices.Length; c++)
        {
            sum += prices[c] = _solver.Price(c);
        }

        return new(prices, sum);
    }

    /// <summary>What the shares of a group's changed valves fall short of opening it, where that is not decided.</summary>
    public double Missing(int g, SearchNode node)
    {
        double paid = 0;
        bool isOpened = false;
        foreach (int v in _ledger.Members[g])
        {
            isOpened |= Choice[v] >= 0;
            paid += Choice[v] >= 0 ? _shares[v] : 0;
        }

        return node.States[g] == SearchNode.Undecided && isOpened ? _opening[g] - paid : 0;
    }

    /// <summary>What a group has gained by counting as opened though nothing is changed in it.</summary>
    public double FalselyOpened(int g, SearchNode node) =>
        node.States[g] == SearchNode.Open && Array.TrueForAll(_ledger.Members[g], v => Choice[v] < 0) ? -_opening[g] : 0;

    /// <summary>What the groups that are known to be opened cost, with what seating anew does to all their valves; divides the others' cost.</summary>
    private double Opening(SearchNode node, WeighedMoves weighed, ReadOnlySpan<double> rates, ShimPrices? prices)
    {
        double cost = 0;
        for (int g = 0; g < _opening.Length; g++)
        {
            double opening = weighed.Open(g);
            double rate = rates[g];
            foreach (int v in _ledger.Members[g])
            {
                _seating[v] = _moves[v].Kept.IsStranded
                    ? 0
                    : weighed.Seated(v) - weighed.Kept(v) + Counts(v, _moves[v].Seated.Doubt, rate) - Counts(v, _moves[v].Kept.Doubt, rate);
                opening += _seating[v];
                _shares[v] = 0;
            }

            _opening[g] = opening;
            cost += node.IsOpen(g) ? opening : 0;
            if (node.States[g] == SearchNode.Undecided)
            {
                AccessShares.Divide(opening, _ledger.Members[g], v => Gain(v, weighed, rate, prices), _shares);
            }
        }

        return cost;
    }

    /// <summary>What a valve's best change would gain on staying, each at the prices.</summary>
    private double Gain(int v, WeighedMoves weighed, double rate, ShimPrices? prices)
    {
        ValveMoves moves = _moves[v];
        ReadOnlySpan<double> cost = weighed.Changes(v);
        double best = double.PositiveInfinity;
        for (int m = 0; m < cost.Length; m++)
        {
            best = Math.Min(best, cost[m] + Counts(v, moves.Doubt[m], rate) - (prices?.Of[moves.Columns[m]] ?? 0));
        }

        double stay = weighed.Kept(v) + Counts(v, moves.Kept.Doubt, rate) - (prices?.Of[v] ?? 0);
        return best == double.PositiveInfinity ? 0 : Math.Max(0, stay - (best - _seating[v]));
    }

    /// <summary>What a valve's doubt counts.</summary>
    private double Counts(int v, double doubt, double rate) =>
        (rate * doubt) + (_rest is null ? 0 : _lift[_ledger.GroupOf[v]] * PlanLedger.Failing(_rest[v] + doubt));

    private void AddRow(int v, SearchNode node, WeighedMoves weighed, double rate)
    {
        int g = _ledger.GroupOf[v];
        ValveMoves moves = _moves[v];
        GroupMinima.Place place = GroupMinima.PlaceOf(Array.IndexOf(_ledger.Members[g], v), node.States[g]);
        if (place != GroupMinima.Place.Changes && weighed.CanKeep(v))
        {
            _arcs.Add(v, weighed.Kept(v) + Counts(v, moves.Kept.Doubt, rate), -1);
        }

        if (place == GroupMinima.Place.Stays || node.States[g] == SearchNode.Closed)
        {
            return;
        }

        ReadOnlySpan<double> cost = weighed.Changes(v);
        double besides = _shares[v] - _seating[v];
        (double own, int ownMove) = (double.PositiveInfinity, -1);
        for (int m = moves.SharedCount; m < cost.Length; m++)
        {
            double line = cost[m] + Counts(v, moves.Doubt[m], rate);
            (own, ownMove) = line < own ? (line, m) : (own, ownMove);
        }

        for (int m = 0; m < moves.SharedCount; m++)
        {
            double line = cost[m] + Counts(v, moves.Doubt[m], rate);
            if (line > own)
            {
                // The surest come first: what follows is no better.
                break;
            }

            _arcs.Add(moves.Columns[m], line + besides, m);
        }

        if (ownMove >= 0)
        {
            _arcs.Add(moves.Columns[ownMove], own + besides, ownMove);
        }
    }
}
