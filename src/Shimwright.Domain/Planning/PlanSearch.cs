using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Planning;

/// <summary>
/// The best plan under one weighing, exact. With the opened groups given, the choice is an assignment of shims to
/// valves. Which groups to open is settled by branch and bound: a group that is not decided yet lets its valves
/// change for a share of its access time each (see <see cref="AccessShares"/>). Where groups want each other's shims the
/// shares are set anew a few times, with the gains at the prices that the assignment has found for the shims.
/// </summary>
internal sealed class PlanSearch
{
    /// <summary>How often the shares of one node are set anew before it is divided.</summary>
    private const int Rounds = 4;

    private readonly OptionTable _options;
    private readonly int[] _groupOf;
    private readonly double[] _access;
    private readonly AccessShares _shares;
    private readonly InterchangeableGroups _alike;
    private readonly AssignmentSolver<Int128> _solver;
    private readonly AssignmentRow[] _rows;
    private readonly int[] _starts;
    private readonly int[] _arcOfRow;
    private readonly ArcList _arcs = new();

    public PlanSearch(PlanRequest request, OptionTable options)
    {
        Engine engine = request.Engine;
        int valves = engine.Valves.Count;
        _options = options;
        List<string> groups = [.. engine.AccessGroups];
        _groupOf = [.. engine.Valves.Select(v => groups.IndexOf(v.Access))];
        _access = [.. groups.Select(request.Costs.AccessOf)];
        _shares = new AccessShares(_groupOf, groups.Count);
        _alike = new InterchangeableGroups(request, options, _groupOf, _access);
        _solver = new AssignmentSolver<Int128>(options.Columns + valves);
        _rows = new AssignmentRow[valves];
        _starts = new int[valves + 1];
        _arcOfRow = new int[valves];
        Scale = new PlanScale(
            Enumerable.Range(0, valves).Sum(v => AllOf(v).Max(o => o.NegLogChance)),
            Enumerable.Range(0, valves).Sum(v => AllOf(v).Max(o => o.Minutes)) + _access.Sum());
    }

    public PlanScale Scale { get; }

    /// <summary>Assignments solved so far, for benchmarks and tests.</summary>
    public int Nodes { get; private set; }

    private enum GroupState : byte
    {
        Undecided,
        Open,
        Closed,
    }

    /// <summary>The best option for every valve.</summary>
    public ValveOption[] Best(Weighing weighing)
    {
        for (int v = 0; v < _rows.Length; v++)
        {
            _rows[v] = new AssignmentRow(_options, v, weighing);
        }

        _shares.Divide(g => weighing.OfOpened(_access[g]), v => _rows[v].Gain);
        Int128 best = Int128.MaxValue;
        ValveOption[] plan = [];
        var open = new Stack<GroupState[]>();
        open.Push(new GroupState[_access.Length]);
        while (open.TryPop(out GroupState[]? states))
        {
            int branch = Look(states, weighing, ref best, ref plan);
            if (branch >= 0)
            {
                // Last in, first out: the open branch, which the relaxed plan wanted, is looked at first.
                open.Push(WithoutAnyLike(states, branch));
                open.Push(With(states, branch, GroupState.Open));
            }
        }

        return plan;
    }

    /// <summary>
    /// Looks at a node: takes its relaxed plan where that is the best so far, and sets the shares anew to tighten the bound.
    /// Returns the group to branch on, or -1 where nothing better can lie below.
    /// </summary>
    private int Look(GroupState[] states, Weighing weighing, ref Int128 best, ref ValveOption[] plan)
    {
        int branch = -1;
        Int128 bound = Int128.MinValue;
        for (int round = 0; round < Rounds; round++)
        {
            Nodes++;
            if (Relaxed(states, weighing) is not { } relaxed)
            {
                return -1;
            }

            bound = Int128.Max(bound, relaxed.Bound);
            Int128 real = Cost(relaxed.Choice, weighing, out Int128[] missing);
            if (real < best)
            {
                (best, plan) = (real, relaxed.Choice);
            }

            branch = GroupToBranchOn(states, missing);
            if (bound >= best || branch < 0)
            {
                return -1;
            }

            _shares.Divide(g => weighing.OfOpened(_access[g]), PricedGain);
        }

        return branch;
    }

    /// <summary>A valve's gain where it has to pay for what the others would have had from its shim.</summary>
    private Int128 PricedGain(int v)
    {
        Int128 stay = _rows[v].KeptCost - _solver.Price(v);
        Int128 gain = 0;
        foreach (AssignmentRow.Arc arc in _rows[v].Changes)
        {
            gain = Int128.Max(gain, stay - (arc.Cost - _solver.Price(arc.Column)));
        }

        return gain;
    }

    private IEnumerable<ValveOption> AllOf(int v) =>
        _options.Shared[v].Select(s => s.Option).Concat(_options.Private[v]).Append(_options.Kept[v]);

    private (Int128 Bound, ValveOption[] Choice)? Relaxed(GroupState[] states, Weighing weighing)
    {
        _arcs.Clear();
        for (int v = 0; v < _rows.Length; v++)
        {
            _starts[v] = _arcs.Count;
            GroupState state = states[_groupOf[v]];
            _arcs.Add(v, _rows[v].KeptCost, _rows[v].Kept);
            if (state != GroupState.Closed)
            {
                Int128 share = state == GroupState.Open ? 0 : _shares[v];
                foreach (AssignmentRow.Arc arc in _rows[v].Changes)
                {
                    _arcs.Add(arc.Column, arc.Cost + share, arc.Option);
                }
            }
        }

        _starts[_rows.Length] = _arcs.Count;
        if (!_solver.Solve(_starts, _arcs.Columns, _arcs.Costs, _arcOfRow))
        {
            return null;
        }

        Int128 bound = 0;
        for (int g = 0; g < states.Length; g++)
        {
            bound += states[g] == GroupState.Open ? weighing.OfOpened(_access[g]) : 0;
        }

        var choice = new ValveOption[_rows.Length];
        for (int v = 0; v < choice.Length; v++)
        {
            bound += _arcs.Costs[_arcOfRow[v]];
            choice[v] = _arcs.OptionOf(_arcOfRow[v]);
        }

        return (bound, choice);
    }

    /// <summary>What a plan really costs, and for each group what the shares of its changed valves fall short of.</summary>
    private Int128 Cost(ValveOption[] choice, Weighing weighing, out Int128[] missing)
    {
        missing = new Int128[_access.Length];
        var isOpened = new bool[_access.Length];
        Int128 cost = 0;
        for (int v = 0; v < choice.Length; v++)
        {
            cost += weighing.Of(choice[v]);
            int g = _groupOf[v];
            if (choice[v].IsChange)
            {
                if (!isOpened[g])
                {
                    isOpened[g] = true;
                    Int128 opened = weighing.OfOpened(_access[g]);
                    cost += opened;
                    missing[g] = opened;
                }

                missing[g] -= _shares[v];
            }
        }

        return cost;
    }

    private static int GroupToBranchOn(GroupState[] states, Int128[] missing)
    {
        int branch = -1;
        for (int g = 0; g < states.Length; g++)
        {
            if (states[g] == GroupState.Undecided && missing[g] > 0 && (branch < 0 || missing[g] > missing[branch]))
            {
                branch = g;
            }
        }

        return branch;
    }

    /// <summary>
    /// Closed, and with it all undecided groups that are like it: were one of them opened, the same plan with the two
    /// exchanged would lie in the open branch.
    /// </summary>
    private GroupState[] WithoutAnyLike(GroupState[] states, int group)
    {
        var copy = (GroupState[])states.Clone();
        for (int g = 0; g < copy.Length; g++)
        {
            if (copy[g] == GroupState.Undecided && _alike.Are(g, group))
            {
                copy[g] = GroupState.Closed;
            }
        }

        return copy;
    }

    private static GroupState[] With(GroupState[] states, int group, GroupState state)
    {
        var copy = (GroupState[])states.Clone();
        copy[group] = state;
        return copy;
    }
}
