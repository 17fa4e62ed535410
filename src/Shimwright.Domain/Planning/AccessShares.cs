namespace Shimwright.Domain.Planning;

/// <summary>
/// What each valve has to pay of opening its group while it is not decided whether the group is opened. The shares of
/// a group add up to its cost, so that a choice of valves never pays more than the group really costs. Each valve pays
/// its gain while that is needed. (Equal shares are worse: a group with one valve that wants to change would be opened at
/// half its cost.) Where opening is a gain in itself, as a seating anew can be, every valve that is changed has all of it.
/// </summary>
internal static class AccessShares
{
    public static void Divide(double cost, ReadOnlySpan<int> members, Func<int, double> gainOf, double[] shares)
    {
        if (cost <= 0)
        {
            foreach (int v in members)
            {
                shares[v] = cost;
            }

            return;
        }

        double left = cost;
        foreach (int v in members)
        {
            shares[v] = Math.Min(left, gainOf(v));
            left -= shares[v];
        }

        foreach (int v in members)
        {
            shares[v] += left / members.Length;
        }
    }
}
