using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Planning;

/// <summary>
/// The best plan under one weighing, exact: branch and bound over which groups are opened and over intervals of the doubt of each
/// group and of all together. A part of all plans is bounded from below in two ways: by an assignment of shims in which
/// chords stand for what is concave, and by each group's own best where shims have prices (<see cref="GroupMinima"/>). Every
/// choice that is met on the way is a real plan and bounds from above. A part is divided where the lower bound gives most away; at
/// the doubt of a plan that was met the chord is exact from then on, so that the search ends.
/// </summary>
internal sealed partial class PlanSearch
{
    /// <summary>The most moves and columns that the search for the plans of a job looks at.</summary>
    private const double MostSteps = 1.2e8;

    /// <summary>How often the prices of one part are set anew before it is divided.</summary>
    private const int Rounds = 3;

    private readonly ValveMoves[] _moves;
    private readonly PlanLedger _ledger;
    private readonly DoubtRanges _ranges;
    private readonly GroupMinima _minima;
    private readonly ShimAssignment _assignment;
    private readonly InterchangeableGroups _alike;
    private readonly PlanPool _pool;
    private readonly int _stranded;
    private readonly double[] _rates;
    private readonly double[] _rest;
    private readonly int[] _takenBy;
    private WeighedMoves _weighed = null!;
    private readonly StrandedCount _least;
    private readonly Allowance _allowance;
    private double _tolerance, _counted;

    public PlanSearch(PlanRequest request, OptionTable options, Allowance? allowance = null)
    {
        _allowance = allowance ?? new Allowance(MostSteps);
        int valves = options.Kept.Length;
        int columns = options.Columns + valves;
        _moves = [.. Enumerable.Range(0, valves).Select(v => new ValveMoves(options, v))];
        _ledger = new PlanLedger(request);
        _assignment = new ShimAssignment(_moves, _ledger, columns);
        _least = StrandedCount.Of(_moves, columns);
        _stranded = _least.Least;
        _alike = new InterchangeableGroups(request, options, _ledger);
        _ranges = new DoubtRanges(_moves, _ledger, _alike, _stranded > 0);
        _minima = new GroupMinima(_moves, _ledger, _ranges, columns);
        _pool = new PlanPool(_moves, _ledger, _stranded);
        _rates = new double[_ledger.Access.Length];
        _rest = new double[valves];
        _takenBy = new int[columns];
    }

    /// <summary>Parts looked at so far, for benchmarks and tests.</summary>
    public int Nodes { get; private set; }

    /// <summary>Assignments solved so far, for benchmarks and tests.</summary>
    public int Assignments => _assignment.Solved;

    /// <summary>The best plan among those that strand fewest.</summary>
    /// <param name="weights">What minutes count.</param>
    /// <param name="tolerance">What a better plan has to be better by.</param>
    public PlanPoint Best(PlanWeights weights, double tolerance)
    {
        _weighed = new WeighedMoves(_moves, _ledger, weights, _stranded > 0);
        _tolerance = Math.Max(tolerance, _weighed.Sliver / 2);
        _pool.Weigh(_weighed);
        PriorityQueue<SearchNode, double> open = new();
        open.Enqueue(Root(), double.NegativeInfinity);
        while (open.TryDequeue(out SearchNode? node, out double bound) && IsOpen(bound))
        {
            if (IsSpent)
            {
                EndAt(bound);
                break;
            }

            Nodes++;
            if (Look(node) is { } branch)
            {
                foreach (SearchNode child in branch.Divide(node, _alike, _ledger))
                {
                    open.Enqueue(child, node.Bound);
                }
            }

            double counted = _minima.Taken + _assignment.Taken;
            _allowance.Take(counted - _counted);
            _counted = counted;
        }

        return _pool.Best;
    }

    private bool IsOpen(double bound) => bound < _pool.Least - _tolerance;

    private SearchNode Root()
    {
        var root = new SearchNode(_ledger.Access.Length);
        for (int g = 0; g < root.States.Length; g++)
        {
            root.States[g] = !_ranges.CanOpen(g) ? SearchNode.Closed : !_ranges.CanStayShut(g) ? SearchNode.Open : SearchNode.Undecided;
        }

        return root;
    }

    /// <summary>Bounds a part; returns how to divide it, or null where nothing better lies in it.</summary>
    private Branch? Look(SearchNode node)
    {
        if (!_ranges.Tighten(node))
        {
            return null;
        }

        Chord all = Chord.Over(_weighed.Redo, node.LowOfAll, node.HighOfAll);
        if (!Raise(node, Apart(node, all, node.Prices)))
        {
            return null;
        }

        SetRest(_minima.Choice, _minima.IsOpened, _minima.Doubt);
        Branch priced = IsPossible(_minima.Choice) ? PricedGap(node, all, _minima.Choice, _pool.Meet(_minima.Choice), node.Prices) : Branch.None;

        if (priced.IsAllOfTheGap)
        {
            return priced.OrNull();
        }

        for (int round = 0; round < Rounds; round++)
        {
            if (!AssignNearby(node, all, out PlanTally met, out ShimPrices prices))
            {
                return null;
            }

            double before = node.Bound;
            double bound = Apart(node, all, prices);
            node.Prices = bound > before || node.Prices is null ? prices : node.Prices;
            if (!Raise(node, bound))
            {
                return null;
            }

            Branch found = PricedGap(node, all, _assignment.Choice, met, prices);
            priced = found.Gap < priced.Gap ? found : priced;
            if (round > 0 && bound < before + _tolerance)
            {
                break;
            }
        }

        return AssignUnderChords(node, all) is { } chords ? (chords.Gap <= priced.Gap ? chords : priced).OrNull() : null;
    }

    /// <summary>A lower bound of a part: every group's own best.</summary>
    private double Apart(SearchNode node, Chord all, ShimPrices? prices) =>
        _minima.Find(node, _weighed, all.Slope, prices) + all.Offset - Stranded;

    /// <summary>What a choice counts; one that strands more than it must is no plan, and counts what the bounds count for that.</summary>
    private double ValueOf(in PlanTally met) => _weighed.Of(met) + (met.Stranded > _stranded ? (met.Stranded - _stranded) * _weighed.Stranding : 0);

    /// <summary>What the stranded valves of every plan count: 0 where none need be.</summary>
    private double Stranded => _stranded > 0 ? _stranded * _weighed.Stranding : 0;

    private bool Raise(SearchNode node, double bound)
    {
        node.Bound = Math.Max(node.Bound, bound);
        return IsOpen(node.Bound);
    }

    /// <summary>Gives out the shims with doubt counted as it is if one valve alone leaves the plan that was met last; notes the plan that comes of it.</summary>
    private bool AssignNearby(SearchNode node, Chord all, out PlanTally met, out ShimPrices prices)
    {
        Array.Fill(_rates, all.Slope);
        if (!_assignment.Solve(node, _weighed, _rates, node.Prices, _rest))
        {
            (met, prices) = (default, null!);
            return false;
        }

        met = _pool.Meet(_assignment.Choice);
        SetRest(_assignment.Choice, _pool.IsOpened, _ledger.GroupDoubt);
        prices = _assignment.Prices();
        return true;
    }

    /// <summary>Notes for each valve the doubt of the others of its group.</summary>
    private void SetRest(ReadOnlySpan<int> choice, ReadOnlySpan<bool> isOpened, ReadOnlySpan<double> groupDoubt)
    {
        for (int v = 0; v < choice.Length; v++)
        {
            int g = _ledger.GroupOf[v];
            _rest[v] = Math.Max(0, groupDoubt[g] - _moves[v].Option(choice[v], isOpened[g]).Doubt);
        }
    }

    /// <summary>Gives out the shims with chords for what is concave: a bound, and where it gives most away. Null where nothing better lies in the part.</summary>
    private Branch? AssignUnderChords(SearchNode node, Chord all)
    {
        double offset = all.Offset;
        Span<double> slopes = stackalloc double[_rates.Length];
        Span<Chord> chords = stackalloc Chord[_rates.Length];
        for (int g = 0; g < chords.Length; g++)
        {
            chords[g] = Chord.Over(_weighed.Lift[g], node.Low[g], node.High[g]);
            slopes[g] = all.Slope + chords[g].Slope;
            offset += chords[g].Offset;
        }

        if (!_assignment.Solve(node, _weighed, slopes, node.Prices))
        {
            return null;
        }

        double bound = _assignment.Cost + offset - Stranded;
        PlanTally met = _pool.Meet(_assignment.Choice);
        if (!Raise(node, bound))
        {
            return null;
        }

        Branch branch = Branch.OfAll(all.Gap(met.Doubt), met.Doubt);
        for (int g = 0; g < chords.Length; g++)
        {
            branch = branch.Or(Branch.OfGroup(g, chords[g].Gap(_ledger.GroupDoubt[g]), _ledger.GroupDoubt[g]))
                .Or(Branch.Deciding(g, _assignment.Missing(g, node)))
                .Or(Branch.Forcing(g, _assignment.FalselyOpened(g, node)));
        }

        return branch.Giving(ValueOf(met) - bound);
    }

    /// <summary>Where the groups' own best give most away against a plan that was met.</summary>
    private Branch PricedGap(SearchNode node, Chord all, ReadOnlySpan<int> choice, in PlanTally met, ShimPrices? prices)
    {
        double gap = ValueOf(met) - (_minima.Value.Sum() + (prices?.Sum ?? 0) + all.Offset - Stranded);
        Branch branch = Branch.OfAll(all.Gap(met.Doubt), met.Doubt);
        for (int g = 0; g < _rates.Length; g++)
        {
            double excess = _minima.ValueOf(g, choice, _weighed, all.Slope, prices) - _minima.Value[g];
            branch = branch.Or(node.States[g] == SearchNode.Undecided
                ? Branch.Deciding(g, excess)
                : Branch.OfGroup(g, excess, node.Inside(g, _ledger.GroupDoubt[g], _minima.Doubt[g])));
        }

        return branch.Giving(gap) with { IsAllOfTheGap = gap - branch.Share <= _tolerance / 2 };
    }
}
