using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Planning;

/// <summary>
/// The best plan under one weighing, exact. With the opened groups given, the choice is an assignment of shims to
/// valves. Which groups to open is settled by branch and bound: a group that is not decided yet lets its valves
/// change for parts of its access time, which together are never more than the real cost.
/// </summary>
internal sealed class PlanSearch
{
    /// <summary>How often a node's bound is tightened before the search branches.</summary>
    private const int Tightenings = 2;

    private readonly OptionTable _options;
    private readonly int[] _groupOf;
    private readonly double[] _access;
    private readonly AccessShares _shares;
    private readonly AssignmentSolver<Int128> _solver;
    private readonly ValveRow[] _rows;
    private readonly int[] _starts;
    private readonly int[] _arcOfRow;
    private readonly Int128[] _share;
    private int[] _columns = new int[1024];
    private Int128[] _costs = new Int128[1024];
    private ValveOption[] _arcOptions = new ValveOption[1024];

    public PlanSearch(PlanRequest request, OptionTable options)
    {
        Engine engine = request.Engine;
        int valves = engine.Valves.Count;
        _options = options;
        List<string> groups = [.. engine.AccessGroups];
        _groupOf = [.. engine.Valves.Select(v => groups.IndexOf(v.Access))];
        _access = [.. groups.Select(request.Costs.AccessOf)];
        _shares = new AccessShares(_groupOf, groups.Count);
        _solver = new AssignmentSolver<Int128>(options.Columns + valves);
        _rows = new ValveRow[valves];
        _starts = new int[valves + 1];
        _arcOfRow = new int[valves];
        _share = new Int128[valves];
        Scale = new PlanScale(
            Enumerable.Range(0, valves).Sum(v => AllOf(v).Max(o => o.Doubt)),
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
            _rows[v] = new ValveRow(_options, v, weighing);
        }

        Int128 best = Int128.MaxValue;
        ValveOption[] plan = [];
        var open = new Stack<GroupState[]>();
        open.Push(new GroupState[_access.Length]);
        while (open.TryPop(out GroupState[]? states))
        {
            if (Bounded(states, weighing, ref best, ref plan) is not { } missing)
            {
                continue;
            }

            int branch = GroupToBranchOn(states, missing);
            if (branch >= 0)
            {
                // Last in, first out: the open branch, which the relaxed plan wanted, is looked at first.
                open.Push(With(states, branch, GroupState.Closed));
                open.Push(With(states, branch, GroupState.Open));
            }
        }

        return plan;
    }

    /// <summary>
    /// Looks at a node: takes its relaxed plan where that is the best so far, and tightens the bound by moving the shares
    /// towards the valves that change. Null where nothing better can be below; otherwise what the groups fall short of.
    /// </summary>
    private Int128[]? Bounded(GroupState[] states, Weighing weighing, ref Int128 best, ref ValveOption[] plan)
    {
        for (int round = 0; ; round++)
        {
            Nodes++;
            if (Relaxed(states, weighing) is not { } relaxed || relaxed.Bound >= best)
            {
                return null;
            }

            Int128 real = Cost(relaxed.Choice, weighing, out Int128[] missing);
            if (real < best)
            {
                (best, plan) = (real, relaxed.Choice);
            }

            if (relaxed.Bound >= best)
            {
                return null;
            }

            if (round == Tightenings || !_shares.Follow(relaxed.Choice, g => states[g] == GroupState.Undecided))
            {
                return missing;
            }
        }
    }

    private IEnumerable<ValveOption> AllOf(int v) =>
        _options.Shared[v].Select(s => s.Option).Concat(_options.Private[v]).Append(_options.Staying[v]);

    private (Int128 Bound, ValveOption[] Choice)? Relaxed(GroupState[] states, Weighing weighing)
    {
        int arcs = 0;
        _shares.Split(weighing, _access, _share);
        for (int v = 0; v < _rows.Length; v++)
        {
            _starts[v] = arcs;
            GroupState state = states[_groupOf[v]];
            Add(ref arcs, v, _rows[v].StayingCost, _rows[v].Staying);
            if (state != GroupState.Closed)
            {
                Int128 share = state == GroupState.Open
                    ? 0
                    : _share[v];
                foreach (ValveRow.Arc arc in _rows[v].Changes)
                {
                    Add(ref arcs, arc.Column, arc.Cost + share, arc.Option);
                }
            }
        }

        _starts[_rows.Length] = arcs;
        if (!_solver.Solve(_starts, _columns.AsSpan(0, arcs), _costs.AsSpan(0, arcs), _arcOfRow))
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
            bound += _costs[_arcOfRow[v]];
            choice[v] = _arcOptions[_arcOfRow[v]];
        }

        return (bound, choice);
    }

    private void Add(ref int arcs, int column, Int128 cost, ValveOption option)
    {
        if (arcs == _columns.Length)
        {
            Array.Resize(ref _columns, 2 * arcs);
            Array.Resize(ref _costs, 2 * arcs);
            Array.Resize(ref _arcOptions, 2 * arcs);
        }

        _columns[arcs] = column;
        _costs[arcs] = cost;
        _arcOptions[arcs] = option;
        arcs++;
    }

    /// <summary>What a plan really costs, and for each group what the shares of its changed valves fall short of.</summary>
    private Int128 Cost(ValveOption[] choice, Weighing weighing, out Int128[] missing)
    {
        missing = new Int128[_access.Length];
        Int128 cost = 0;
        bool[] isOpened = new bool[_access.Length];
        for (int v = 0; v < choice.Length; v++)
        {
            cost += weighing.Of(choice[v]);
            int g = _groupOf[v];
            if (!choice[v].IsChange)
            {
                continue;
            }

            if (!isOpened[g])
            {
                isOpened[g] = true;
                missing[g] = weighing.OfOpened(_access[g]);
                cost += missing[g];
            }

            missing[g] -= _share[v];
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

    private static GroupState[] With(GroupState[] states, int group, GroupState state)
    {
        var copy = (GroupState[])states.Clone();
        copy[group] = state;
        return copy;
    }
}
