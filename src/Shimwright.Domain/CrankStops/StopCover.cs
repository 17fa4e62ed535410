using System.Numerics;

namespace Shimwright.Domain.CrankStops;

/// <summary>
/// Fewest candidates that together serve every valve: an exact set cover by bounded search. The valve that the fewest
/// candidates serve is settled first, and a branch ends where even the most useful candidate could not finish in time.
/// </summary>
internal static class StopCover
{
    /// <summary>Places of candidates that serve all of <paramref name="wanted"/>, at most <paramref name="most"/> of them; null where there are none.</summary>
    public static List<int>? Find(IReadOnlyList<ulong> serves, ulong wanted, int most)
    {
        List<int> chosen = [];
        return Search(serves, wanted, most, chosen) ? chosen : null;
    }

    /// <summary>The fewest candidates that serve all of <paramref name="wanted"/>; null where some valve has none.</summary>
    public static int? Fewest(IReadOnlyList<ulong> serves, ulong wanted)
    {
        ulong all = serves.Aggregate(0UL, (a, b) => a | b);
        if ((all & wanted) != wanted)
        {
            return null;
        }

        int count = 0;
        while (Find(serves, wanted, count) is null)
        {
            count++;
        }

        return count;
    }

    private static bool Search(IReadOnlyList<ulong> serves, ulong open, int left, List<int> chosen)
    {
        if (open == 0)
        {
            return true;
        }

        int best = serves.Select(s => BitOperations.PopCount(s & open)).DefaultIfEmpty(0).Max();
        if (best == 0 || left * best < BitOperations.PopCount(open))
        {
            return false;
        }

        ulong hardest = Hardest(serves, open);
        HashSet<ulong> tried = [];
        foreach (int candidate in Enumerable.Range(0, serves.Count)
            .Where(c => (serves[c] & hardest) != 0)
            .OrderByDescending(c => BitOperations.PopCount(serves[c] & open)))
        {
            if (!tried.Add(serves[candidate] & open))
            {
                continue;
            }

            chosen.Add(candidate);
            if (Search(serves, open & ~serves[candidate], left - 1, chosen))
            {
                return true;
            }

            chosen.RemoveAt(chosen.Count - 1);
        }

        return false;
    }

    private static ulong Hardest(IReadOnlyList<ulong> serves, ulong open)
    {
        ulong hardest = 0;
        int fewest = int.MaxValue;
        for (ulong rest = open; rest != 0; rest &= rest - 1)
        {
            ulong valve = rest & (~rest + 1);
            int count = serves.Count(s => (s & valve) != 0);
            if (count < fewest)
            {
                (fewest, hardest) = (count, valve);
            }
        }

        return hardest;
    }
}
