namespace Shimwright.Domain.Planning;

/// <summary>
/// How the cost of opening a group is spread over its valves while it is not decided whether to open it. Any whole parts
/// that add up to the cost make a lower bound; it is tight where they lie on the valves that want to change. After each
/// relaxed plan the parts move towards those, first all the way and then by smaller steps: the subgradient method for
/// the Lagrangian of "a valve changes only in an opened group" (M. L. Fisher, "The Lagrangian relaxation method for
/// solving integer programming problems", Management Science 27 (1981) 1-18).
/// </summary>
internal sealed class AccessShares
{
    private readonly int[][] _valvesOf;
    private readonly double[] _part;
    private readonly int[] _steps;

    public AccessShares(int[] groupOf, int groups)
    {
        _valvesOf = [.. Enumerable.Range(0, groups).Select(g =>
            Enumerable.Range(0, groupOf.Length).Where(v => groupOf[v] == g).ToArray())];
        _part = [.. groupOf.Select(g => 1.0 / _valvesOf[g].Length)];
        _steps = new int[groups];
    }

    /// <summary>
    /// Splits each group's opening over its valves: the cost in whole quanta, nothing lost to rounding, and the count of
    /// one opened group, which cannot be split and goes to the valve with the largest part.
    /// </summary>
    public void Split(Weighing weighing, ReadOnlySpan<double> access, Span<Int128> shareOfValve)
    {
        for (int g = 0; g < _valvesOf.Length; g++)
        {
            long cost = weighing.QuantaOfOpened(access[g]);
            int largest = _valvesOf[g].MaxBy(v => _part[v]);
            long rest = cost;
            foreach (int v in _valvesOf[g].Where(v => v != largest))
            {
                long quanta = Math.Min(rest, (long)(cost * _part[v]));
                rest -= quanta;
                shareOfValve[v] = weighing.OfShare(quanta, carriesCount: false);
            }

            shareOfValve[largest] = weighing.OfShare(rest, carriesCount: true);
        }
    }

    /// <summary>Moves the parts of undecided groups towards the valves that changed; false where nothing moved.</summary>
    public bool Follow(ValveOption[] choice, Func<int, bool> isUndecided)
    {
        bool moved = false;
        for (int g = 0; g < _valvesOf.Length; g++)
        {
            int changed = _valvesOf[g].Count(v => choice[v].IsChange);
            if (changed == 0 || changed == _valvesOf[g].Length || !isUndecided(g))
            {
                continue;
            }

            double step = 1.0 / ++_steps[g];
            foreach (int v in _valvesOf[g])
            {
                double wanted = choice[v].IsChange ? 1.0 / changed : 0;
                moved |= wanted != _part[v];
                _part[v] += step * (wanted - _part[v]);
            }
        }

        return moved;
    }
}
