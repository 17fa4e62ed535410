namespace Shimwright.Domain.Planning;

/// <summary>
/// The best of each access group by itself, where shims have prices instead of being there once, and where doubt counts a little more
/// in every group for what it does to the whole job. Within a group this is exact: its own term is concave in its doubt, so
/// that its best choice is what every valve likes best at some rate of minutes for doubt, and all such choices are gone through.
/// </summary>
internal sealed class GroupMinima
{
    private readonly ValveMoves[] _moves;
    private readonly PlanLedger _ledger;
    private readonly DoubtRanges _ranges;
    private readonly double[] _free;
    private readonly List<(double Rate, int Valve, int Move)> _steps = [];
    private readonly int[] _first;

    public GroupMinima(ValveMoves[] moves, PlanLedger ledger, DoubtRanges ranges, int columns)
    {
        (_moves, _ledger, _ranges) = (moves, ledger, ranges);
        _free = new double[columns];
        _first = new int[moves.Length];
        Choice = new int[moves.Length];
        IsOpened = new bool[ledger.Access.Length];
        (Doubt, Value) = (new double[ledger.Access.Length], new double[ledger.Access.Length]);
    }

    /// <summary>Moves looked at so far.</summary>
    public double Taken { get; private set; }

    /// <summary>What each valve does: a change by its place, or -1.</summary>
    public int[] Choice { get; }

    /// <summary>The groups that are opened.</summary>
    public bool[] IsOpened { get; }

    /// <summary>The doubt of each group.</summary>
    public double[] Doubt { get; }

    /// <summary>What each group counts.</summary>
    public double[] Value { get; }

    /// <summary>Finds the minima of all groups; returns their sum, and of all prices.</summary>
    public double Find(SearchNode node, WeighedMoves weighed, double rate, ShimPrices? prices)
    {
        double[] price = prices?.Of ?? _free;
        double sum = prices?.Sum ?? 0;
        for (int g = 0; g < Value.Length && sum < double.PositiveInfinity; g++)
        {
            FindOne(g, node, weighed, rate, price);
            sum += Value[g];
        }

        return sum;
    }

    /// <summary>What a group of a real plan counts at the same prices; its doubt as the ledger has it.</summary>
    public double ValueOf(int g, ReadOnlySpan<int> choice, WeighedMoves weighed, double rate, ShimPrices? prices)
    {
        double[] price = prices?.Of ?? _free;
        int[] members = _ledger.Members[g];
        bool isOpened = false;
        foreach (int v in members)
        {
            isOpened |= choice[v] >= 0;
        }

        double value = isOpened ? weighed.Open(g) : 0;
        double doubt = 0;
        foreach (int v in members)
        {
            value += CostOf(v, choice[v], isOpened, weighed, price);
            doubt += DoubtOf(v, choice[v], isOpened);
        }

        return value + (rate * doubt) + (weighed.Lift[g] * PlanLedger.Failing(doubt));
    }

    private void FindOne(int g, SearchNode node, WeighedMoves weighed, double rate, double[] price)
    {
        int state = node.States[g];
        int[] members = _ledger.Members[g];
        Value[g] = double.PositiveInfinity;
        if (state is SearchNode.Closed or SearchNode.Undecided && _ranges.MayStayShut(node, g))
        {
            (double value, double doubt) = (0, 0);
            foreach (int v in members)
            {
                value += weighed.Kept(v) - price[v];
                doubt += _moves[v].Kept.Doubt;
                Choice[v] = -1;
            }

            IsOpened[g] = false;
            Doubt[g] = doubt;
            Value[g] = value + (rate * doubt) + (weighed.Lift[g] * PlanLedger.Failing(doubt));
        }

        if (state != SearchNode.Closed && _ranges.CanOpen(g))
        {
            FindOpen(g, node, weighed, rate, price);
        }
    }

    /// <summary>Goes through what the valves of an opened group like best, from the rate at its greatest doubt to that at its least.</summary>
    private void FindOpen(int g, SearchNode node, WeighedMoves weighed, double rate, double[] price)
    {
        int[] members = _ledger.Members[g];
        var curve = new Curve(weighed.Lift[g], node.Low[g], node.High[g]);
        double least = rate + curve.SlopeAt(node.High[g]);
        double most = rate + curve.SlopeAt(node.Low[g]);
        (double value, double doubt) = (weighed.Open(g), 0);
        _steps.Clear();
        for (int k = 0; k < members.Length; k++)
        {
            int v = members[k];
            if (!Walk(v, PlaceOf(k, node.States[g]), weighed, price, least, most))
            {
                return;
            }

            value += CostOf(v, _first[v], isOpened: true, weighed, price);
            doubt += DoubtOf(v, _first[v], isOpened: true);
        }

        if (_steps.Count > 1)
        {
            _steps.Sort((a, b) => a.Rate.CompareTo(b.Rate));
        }

        TakeBest(g, weighed, rate, price, curve, value, doubt);
    }

    private void TakeBest(int g, WeighedMoves weighed, double rate, double[] price, Curve curve, double value, double doubt)
    {
        int[] members = _ledger.Members[g];
        double best = value + (rate * doubt) + curve.At(doubt);
        (int taken, double at) = (0, doubt);
        Span<int> now = stackalloc int[_first.Length];
        _first.CopyTo(now);
        for (int s = 0; s < _steps.Count; s++)
        {
            (_, int v, int move) = _steps[s];
            value += CostOf(v, move, true, weighed, price) - CostOf(v, now[v], true, weighed, price);
            doubt += DoubtOf(v, move, true) - DoubtOf(v, now[v], true);
            now[v] = move;
            double found = value + (rate * doubt) + curve.At(doubt);
            if (found < best)
            {
                (best, taken, at) = (found, s + 1, doubt);
            }
        }

        if (best >= Value[g])
        {
            return;
        }

        (Value[g], Doubt[g], IsOpened[g]) = (best, at, true);
        foreach (int v in members)
        {
            Choice[v] = _first[v];
        }

        for (int s = 0; s < taken; s++)
        {
            Choice[_steps[s].Valve] = _steps[s].Move;
        }
    }

    /// <summary>What one valve likes best at the least rate, and the steps to what it likes best at greater ones; false where it can do nothing.</summary>
    private bool Walk(int v, Place place, WeighedMoves weighed, double[] price, double least, double most)
    {
        ValveMoves moves = _moves[v];
        ReadOnlySpan<double> cost = weighed.Changes(v);
        int from = place != Place.Changes && weighed.CanKeep(v) ? -1 : 0;
        int to = place == Place.Stays ? 0 : moves.Doubt.Length;
        (int current, Taken) = (-2, Taken + to - from);
        (double lowest, double lineDoubt) = (double.PositiveInfinity, 0);
        for (int m = from; m < to; m++)
        {
            double doubt = m < 0 ? moves.Seated.Doubt : moves.Doubt[m];
            double line = (m < 0 ? weighed.Seated(v) - price[v] : cost[m] - price[moves.Columns[m]]) + (least * doubt);
            if (line < lowest || (line == lowest && doubt < lineDoubt))
            {
                (lowest, lineDoubt, current) = (line, doubt, m);
            }
        }

        _first[v] = current;
        double now = lowest - (least * lineDoubt);
        while (current > -2)
        {
            int next = -2;
            Taken += to - from;
            (double rate, double nextCost, double nextDoubt) = (most, 0, 0);
            for (int m = from; m < to; m++)
            {
                double doubt = m < 0 ? moves.Seated.Doubt : moves.Doubt[m];
                if (doubt < lineDoubt)
                {
                    double other = m < 0 ? weighed.Seated(v) - price[v] : cost[m] - price[moves.Columns[m]];
                    double crossing = (other - now) / (lineDoubt - doubt);
                    if (crossing < rate || (crossing == rate && next > -2 && doubt < nextDoubt))
                    {
                        (next, rate, nextCost, nextDoubt) = (m, crossing, other, doubt);
                    }
                }
            }

            if (next == -2)
            {
                return true;
            }

            _steps.Add((rate, v, next));
            (current, now, lineDoubt) = (next, nextCost, nextDoubt);
        }

        return false;
    }

    private double CostOf(int v, int move, bool isOpened, WeighedMoves weighed, double[] price) =>
        move >= 0 ? weighed.Changes(v)[move] - price[_moves[v].Columns[move]] : (isOpened ? weighed.Seated(v) : weighed.Kept(v)) - price[v];

    private double DoubtOf(int v, int move, bool isOpened) =>
        move >= 0 ? _moves[v].Doubt[move] : isOpened ? _moves[v].Seated.Doubt : _moves[v].Kept.Doubt;

    internal enum Place : byte
    {
        Free,
        Stays,
        Changes,
    }

    /// <summary>What is settled about a valve of a group whose first changed valve is known.</summary>
    internal static Place PlaceOf(int place, int state) =>
        state < 0 || place > state ? Place.Free : place < state ? Place.Stays : Place.Changes;

    /// <summary>What a group's failing counts, between two doubts; beyond them straight on, so that it is concave everywhere.</summary>
    private readonly record struct Curve(double Scale, double Low, double High)
    {
        public double SlopeAt(double doubt) => Scale * Math.Exp(-doubt);

        public double At(double doubt)
        {
            double inside = Math.Clamp(doubt, Low, High);
            return (Scale * PlanLedger.Failing(inside)) + (SlopeAt(inside) * (doubt - inside));
        }
    }
}
