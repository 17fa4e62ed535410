namespace Shimwright.Domain.Planning;

/// <summary>
/// What each valve has to pay of opening its group while it is not decided whether the group is opened. The shares of
/// a group add up to its cost, so that a choice of valves never pays more than the group really costs. Each valve pays
/// its gain while that is needed: then the bound is exact for every group that nothing ties to the others. (Equal
/// shares are not: a group with one valve that wants to change would be opened at half its cost.)
/// </summary>
internal sealed class AccessShares
{
    private readonly int[][] _members;
    private readonly Int128[] _shares;

    public AccessShares(int[] groupOf, int groups)
    {
        _members = [.. Enumerable.Range(0, groups).Select(g => Enumerable.Range(0, groupOf.Length).Where(v => groupOf[v] == g).ToArray())];
        _shares = new Int128[groupOf.Length];
    }

    public Int128 this[int valve] => _shares[valve];

    /// <summary>Divides the cost of each group by the gains of its valves; what no gain pays for is laid on all of them, so that none wants to change.</summary>
    public void Divide(Func<int, Int128> costOf, Func<int, Int128> gainOf)
    {
        for (int g = 0; g < _members.Length; g++)
        {
            Int128 left = costOf(g);
            foreach (int v in _members[g])
            {
                _shares[v] = Int128.Min(left, gainOf(v));
                left -= _shares[v];
            }

            Int128 each = left / _members[g].Length;
            foreach (int v in _members[g])
            {
                _shares[v] += each;
                left -= each;
            }

            _shares[_members[g][0]] += left;
        }
    }
}
