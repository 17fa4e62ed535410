namespace Shimwright.Domain.Planning;

/// <summary>
/// What everything counts under one weighing, apart from the two kinds of product. Ties go to fewer opened groups, then fewer
/// changed valves, then fewer bought: each counts a sliver of a minute, so little that no true difference is outweighed. Where
/// nothing that is to come costs anything, what is left equal is decided by less doubt.
/// </summary>
internal sealed class WeighedMoves
{
    /// <summary>What all the slivers of a plan come to at most, minutes.</summary>
    private const double Tie = 1e-9;

    /// <summary>The same where nothing is to come: minutes of work are then all there is, and they are round.</summary>
    private const double TieOfWork = 1e-4;

    /// <summary>A sliver has to be seen among the rounding of a sum.</summary>
    private const double LeastSliver = 4e-15;

    private readonly double _perDoubt;
    private readonly double[] _kept;
    private readonly double[] _seated;
    private readonly double[][] _changes;
    private readonly double[] _open;

    public WeighedMoves(ValveMoves[] moves, PlanLedger ledger, PlanWeights weights, bool strands)
    {
        Weights = weights;
        int groups = ledger.Access.Length;
        Lift = [.. ledger.Access.Select(a => weights.ToCome * a)];
        double greatest = (weights.ToCome * (ledger.Redo + ledger.Access.Sum() + (moves.Length * ledger.Again)))
            + (weights.Work * (ledger.Access.Sum() + moves.Sum(m => m.Changes.Select(c => c.Minutes).DefaultIfEmpty(0).Max())));
        int many = moves.Length + 1;
        bool isFree = ledger.Redo == 0 && ledger.Again == 0 && ledger.Access.Sum() == 0;
        Sliver = Math.Min(weights.Work, weights.ToCome)
            * Math.Max((isFree ? TieOfWork : Tie) / ((groups * many * many) + (moves.Length * many) + moves.Length), LeastSliver * Math.Min(greatest, 1e6));
        _perDoubt = isFree ? Sliver / 4 : 0;
        Redo = (weights.ToCome * ledger.Redo) + _perDoubt;
        OpenedSliver = Sliver * many * many;
        ChangedSliver = Sliver * many;
        Stranding = strands ? greatest + 1 : double.PositiveInfinity;
        double again = weights.ToCome * ledger.Again;
        _kept = [.. moves.Select(m => m.Kept.IsStranded ? Stranding : again * m.Kept.Failing)];
        _seated = [.. moves.Select(m => m.Kept.IsStranded ? Stranding : again * m.Seated.Failing)];
        _changes = [.. moves.Select(m => Array.ConvertAll(
            m.Changes, c => (weights.Work * c.Minutes) + (again * c.Failing) + ChangedSliver + (c.IsBought ? Sliver : 0)))];
        _open = [.. ledger.Opening.Select(a => (weights.Work * a) + OpenedSliver)];
    }

    public PlanWeights Weights { get; }

    /// <summary>What another round counts.</summary>
    public double Redo { get; }

    /// <summary>What lifting each group once more counts.</summary>
    public double[] Lift { get; }

    /// <summary>What a stranded valve counts, more than all else together; infinite where none need be.</summary>
    public double Stranding { get; }

    /// <summary>What one bought shim counts among ties.</summary>
    public double Sliver { get; }

    public double ChangedSliver { get; }

    public double OpenedSliver { get; }

    /// <summary>Whether a valve may be left alone.</summary>
    public bool CanKeep(int v) => _kept[v] < double.PositiveInfinity;

    public double Kept(int v) => _kept[v];

    public double Seated(int v) => _seated[v];

    public ReadOnlySpan<double> Changes(int v) => _changes[v];

    /// <summary>What opening a group counts.</summary>
    public double Open(int g) => _open[g];

    /// <summary>What a plan counts.</summary>
    public double Of(in PlanTally tally) => Of(tally.Work, tally.ToCome, tally.Doubt, tally.Opened, tally.Changed, tally.Bought);

    /// <summary>What a plan counts.</summary>
    public double Of(PlanPoint point) => Of(point.Work, point.ToCome, point.Doubt, point.Opened, point.Changed, point.Bought);

    private double Of(double work, double toCome, double doubt, int opened, int changed, int bought) =>
        Weights.Of(work, toCome) + (_perDoubt * PlanLedger.Failing(doubt)) + (OpenedSliver * opened) + (ChangedSliver * changed) + (Sliver * bought);
}
