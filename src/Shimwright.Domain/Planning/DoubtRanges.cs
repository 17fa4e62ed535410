namespace Shimwright.Domain.Planning;

/// <summary>Between what doubts a group can lie when it stays shut and when it is opened, and what that says about a part of all plans.</summary>
internal sealed class DoubtRanges
{
    private const double Slack = 1e-12;
    private readonly double[] _closed;
    private readonly double[] _openLow;
    private readonly double[] _openHigh;

    /// <summary>For each group the one before it that is like it, or -1.</summary>
    private readonly int[] _before;

    public DoubtRanges(ValveMoves[] moves, PlanLedger ledger, InterchangeableGroups alike, bool strands)
    {
        int groups = ledger.Members.Length;
        (_closed, _openLow, _openHigh) = (new double[groups], new double[groups], new double[groups]);
        _before = [.. Enumerable.Range(0, groups).Select(g => Enumerable.Range(0, g).LastOrDefault(h => alike.Are(g, h), -1))];
        foreach ((int g, int[] members) in ledger.Members.Index())
        {
            foreach (int v in members)
            {
                bool canKeep = strands || !moves[v].Kept.IsStranded;
                IEnumerable<double> open = canKeep ? moves[v].Doubt.Append(moves[v].Seated.Doubt) : moves[v].Doubt;
                _closed[g] += canKeep ? moves[v].Kept.Doubt : double.NaN;
                _openLow[g] += open.DefaultIfEmpty(double.NaN).Min();
                _openHigh[g] += open.DefaultIfEmpty(double.NaN).Max();
            }

            _openLow[g] = members.Any(v => moves[v].Changes.Length > 0) ? _openLow[g] : double.NaN;
        }
    }

    public bool CanStayShut(int g) => !double.IsNaN(_closed[g]);

    public bool CanOpen(int g) => !double.IsNaN(_openLow[g]);

    /// <summary>Whether the doubt that a group has while it stays shut belongs to a part.</summary>
    public bool MayStayShut(SearchNode node, int g) => _closed[g] >= node.Low[g] - Slack && _closed[g] <= node.High[g] + Slack;

    /// <summary>Draws the limits of a part in as far as they are sure; false where no plan is left in it.</summary>
    public bool Tighten(SearchNode node)
    {
        for (int g = 0; g < _closed.Length; g++)
        {
            (double least, double greatest) = RangeOf(node.States[g], g);
            node.Low[g] = Math.Max(node.Low[g], least);
            node.High[g] = Math.Min(node.High[g], greatest);
        }

        OrderAlike(node);
        (double low, double high) = (node.Low.Sum(), node.High.Sum());

        node.LowOfAll = Math.Max(node.LowOfAll, low);
        node.HighOfAll = Math.Min(node.HighOfAll, high);
        if (!(node.LowOfAll <= node.HighOfAll + Slack))
        {
            return false;
        }

        node.HighOfAll = Math.Max(node.LowOfAll, node.HighOfAll);
        return TightenGroups(node, low, high);
    }

    /// <summary>Of opened groups that are alike the surer comes first: any plan can be rewritten so, with the same value.</summary>
    private void OrderAlike(SearchNode node)
    {
        for (int g = 0; g < _before.Length; g++)
        {
            if (_before[g] >= 0 && node.IsOpen(g) && node.IsOpen(_before[g]))
            {
                node.Low[g] = Math.Max(node.Low[g], node.Low[_before[g]]);
            }
        }

        for (int g = _before.Length - 1; g >= 0; g--)
        {
            if (_before[g] >= 0 && node.IsOpen(g) && node.IsOpen(_before[g]))
            {
                node.High[_before[g]] = Math.Min(node.High[_before[g]], node.High[g]);
            }
        }
    }

    private bool TightenGroups(SearchNode node, double low, double high)
    {
        for (int g = 0; g < _closed.Length; g++)
        {
            double least = Math.Max(node.Low[g], node.LowOfAll - (high - node.High[g]) - Slack);
            double greatest = Math.Min(node.High[g], node.HighOfAll - (low - node.Low[g]) + Slack);
            if (!(least <= greatest + Slack))
            {
                return false;
            }

            // The sums were made with the limits as they were.
            low += least - node.Low[g];
            high += Math.Max(least, greatest) - node.High[g];
            (node.Low[g], node.High[g]) = (least, Math.Max(least, greatest));
        }

        return true;
    }

    private (double Least, double Greatest) RangeOf(int state, int g)
    {
        if (state == SearchNode.Closed || (state == SearchNode.Undecided && !CanOpen(g)))
        {
            return (_closed[g], _closed[g]);
        }

        return state == SearchNode.Undecided && CanStayShut(g)
            ? (Math.Min(_closed[g], _openLow[g]), Math.Max(_closed[g], _openHigh[g]))
            : (_openLow[g], _openHigh[g]);
    }
}
