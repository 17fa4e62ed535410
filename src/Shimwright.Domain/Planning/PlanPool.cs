namespace Shimwright.Domain.Planning;

/// <summary>The plans that a search has met, as far as none of them is better in both respects, and the best of them under the weighing at hand.</summary>
internal sealed class PlanPool(ValveMoves[] moves, PlanLedger ledger, int stranded)
{
    /// <summary>Chances that differ by less are the same.</summary>
    private const double Same = 1e-12;

    private readonly List<PlanPoint> _points = [];
    private readonly ValveOption[] _choice = new ValveOption[moves.Length];
    private readonly bool[] _isOpened = new bool[ledger.Access.Length];
    private WeighedMoves _weighed = null!;
    private PlanPoint? _best;

    /// <summary>The groups that the plan met last opens.</summary>
    public ReadOnlySpan<bool> IsOpened => _isOpened;

    /// <summary>What the best plan counts.</summary>
    public double Least { get; private set; } = double.PositiveInfinity;

    /// <summary>The best plan.</summary>
    public PlanPoint Best => _best!;

    /// <summary>Weighs what was met so far anew.</summary>
    public void Weigh(WeighedMoves weighed)
    {
        _weighed = weighed;
        (_best, Least) = (null, double.PositiveInfinity);
        foreach (PlanPoint point in _points)
        {
            double value = weighed.Of(point);
            (_best, Least) = value < Least ? (point, value) : (_best, Least);
        }
    }

    /// <summary>Works out what a possible choice of moves comes to, and keeps the plan if it is worth it.</summary>
    public PlanTally Meet(ReadOnlySpan<int> choice)
    {
        Array.Clear(_isOpened);
        for (int v = 0; v < choice.Length; v++)
        {
            _isOpened[ledger.GroupOf[v]] |= choice[v] >= 0;
        }

        for (int v = 0; v < choice.Length; v++)
        {
            _choice[v] = moves[v].Option(choice[v], _isOpened[ledger.GroupOf[v]]);
        }

        PlanTally tally = ledger.Of(_choice);
        if (tally.Stranded == stranded)
        {
            Keep(tally);
        }

        return tally;
    }

    private void Keep(in PlanTally tally)
    {
        double value = _weighed.Of(tally);
        foreach (PlanPoint point in _points)
        {
            if (point.Work <= tally.Work && point.ToCome <= tally.ToCome && value >= Least)
            {
                return;
            }
        }

        DrawerFirst();
        var kept = new PlanPoint([.. _choice], tally.Work, tally.ToCome, tally.Doubt, tally.Opened, tally.Changed, tally.Bought);
        _points.RemoveAll(p => p.Work >= kept.Work && p.ToCome >= kept.ToCome && !ReferenceEquals(p, _best));
        _points.Add(kept);
        (_best, Least) = value < Least ? (kept, value) : (_best, Least);
    }

    /// <summary>
    /// Where several valves take the same size, from the drawer and bought, those named first take the drawer's. It comes to the same; else the last digit of
    /// a sum would decide, and that is not the same on every processor.
    /// </summary>
    private void DrawerFirst()
    {
        for (int i = 0; i < _choice.Length; i++)
        {
            for (int j = i + 1; j < _choice.Length && _choice[i].IsBought; j++)
            {
                if (_choice[j] is { Action: ValveAction.Fit, Source: ShimSource.Drawer } taken && taken.To == _choice[i].To
                    && Alike(i, ShimSource.Drawer) is { } here && Alike(j, ShimSource.Buy) is { } there)
                {
                    (_choice[i], _choice[j]) = (here, there);
                }
            }
        }

        ValveOption? Alike(int v, ShimSource source) => Array.Find(
            moves[v].Changes, c => c.Action == ValveAction.Fit && c.Source == source && c.To == _choice[v].To && Math.Abs(c.Chance - _choice[v].Chance) < Same);
    }
}
