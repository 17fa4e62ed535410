using System.Numerics;

namespace Shimwright.Domain.CrankStops;

/// <summary>
/// Whether so many candidates can together serve a set of valves: exact set cover by branching over the candidates of
/// the valve that the fewest serve. A branch ends where a lower bound says that it cannot finish in time, and what
/// could not be served once is remembered. A valve is a bit.
/// </summary>
internal sealed class StopCover
{
    /// <summary>How much is remembered at most, so that no layout can fill the memory.</summary>
    private const int MostRemembered = 1 << 20;

    private readonly ulong[] _candidates;
    private readonly Dictionary<ulong, int> _inVain = [];

    /// <summary>Takes what each candidate serves.</summary>
    public StopCover(ulong[] serves) => _candidates = Useful(serves, ulong.MaxValue);

    /// <summary>Whether at most so many candidates serve all of <paramref name="wanted"/>.</summary>
    public bool CanServe(ulong wanted, int most) => CanServe(_candidates, wanted, most);

    /// <summary>The fewest candidates that serve all of <paramref name="wanted"/>; null where some valve has none.</summary>
    public int? Fewest(ulong wanted)
    {
        if ((_candidates.Aggregate(0UL, (a, b) => a | b) & wanted) != wanted)
        {
            return null;
        }

        int count = 0;
        while (!CanServe(wanted, count))
        {
            count++;
        }

        return count;
    }

    private bool CanServe(ulong[] candidates, ulong open, int left)
    {
        if (open == 0 || left <= 1)
        {
            return open == 0 || (left == 1 && Array.Exists(candidates, c => (c & open) == open));
        }

        if (_inVain.TryGetValue(open, out int tried) && tried >= left)
        {
            return false;
        }

        ulong[] useful = Useful(candidates, open);
        if (AtLeast(useful, open) <= left)
        {
            ulong hardest = Hardest(useful, open);
            foreach (ulong candidate in useful)
            {
                if ((candidate & hardest) != 0 && CanServe(useful, open & ~candidate, left - 1))
                {
                    return true;
                }
            }
        }

        if (_inVain.Count < MostRemembered)
        {
            _inVain[open] = left;
        }

        return false;
    }

    /// <summary>What the candidates serve of the open valves, the most first, without those that another one outdoes.</summary>
    private static ulong[] Useful(ulong[] candidates, ulong open)
    {
        ulong[] serves = Array.ConvertAll(candidates, c => c & open);
        int[] fewness = Array.ConvertAll(serves, s => -BitOperations.PopCount(s));
        Array.Sort(fewness, serves);
        int count = 0;
        foreach (ulong served in serves)
        {
            if (served != 0 && !IsOutdone(served, serves.AsSpan(0, count)))
            {
                serves[count++] = served;
            }
        }

        return serves[..count];
    }

    private static bool IsOutdone(ulong served, ReadOnlySpan<ulong> by)
    {
        foreach (ulong other in by)
        {
            if ((served & ~other) == 0)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>
    /// A lower bound on how many candidates the open valves need: the greater of the shares, where each valve bears
    /// 1/n of the candidate with most valves n that serves it, and of valves picked so that no candidate serves two.
    /// </summary>
    private static int AtLeast(ulong[] useful, ulong open)
    {
        double shares = 0;
        int apart = 0;
        ulong unpicked = open;
        for (ulong rest = open; rest != 0; rest &= rest - 1)
        {
            ulong valve = rest & (~rest + 1);
            int most = 0;
            ulong together = 0;
            foreach (ulong served in useful)
            {
                if ((served & valve) != 0)
                {
                    most = Math.Max(most, BitOperations.PopCount(served));
                    together |= served;
                }
            }

            if (most == 0)
            {
                return int.MaxValue;
            }

            shares += 1.0 / most;
            if ((unpicked & valve) != 0)
            {
                apart++;
                unpicked &= ~together;
            }
        }

        return Math.Max(apart, (int)Math.Ceiling(shares - 1e-9));
    }

    private static ulong Hardest(ulong[] useful, ulong open)
    {
        ulong hardest = 0;
        int fewest = int.MaxValue;
        for (ulong rest = open; rest != 0; rest &= rest - 1)
        {
            ulong valve = rest & (~rest + 1);
            int count = 0;
            foreach (ulong served in useful)
            {
                count += (served & valve) != 0 ? 1 : 0;
            }

            if (count < fewest)
            {
                (fewest, hardest) = (count, valve);
            }
        }

        return hardest;
    }
}
