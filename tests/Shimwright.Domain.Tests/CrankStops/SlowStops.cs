using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Tests.CrankStops;

/// <summary>
/// Crank stops by trying every half degree of the cycle, for layouts in whole degrees: there the best slack and the
/// angles at which it is reached are whole or half degrees, so that nothing better lies between. Written from the
/// definition, with nothing of the search in it.
/// </summary>
internal sealed class SlowStops
{
    private const int Points = 1440;
    private readonly int[][] _slack;
    private readonly int[] _allowed;

    /// <param name="layout">The layout, in whole degrees.</param>
    /// <param name="anywhere">Whether every half degree is allowed, or marks and dead centres only.</param>
    public SlowStops(CrankLayout layout, bool anywhere)
    {
        _slack = [.. layout.Valves.Select(v => SlackOf(layout, v))];
        _allowed = anywhere
            ? [.. Enumerable.Range(0, Points)]
            : [.. layout.FiringAngles.Concat(layout.FiringAngles.Select(a => a + 360)).Concat(layout.Marks).Select(Point).Distinct().Order()];
    }

    /// <summary>Stops in degrees with (valve, slack) lists; null where no set of allowed points serves every valve.</summary>
    public IReadOnlyList<(double Angle, IReadOnlyList<(int Valve, double Slack)> Valves)>? Best()
    {
        if (Fewest() is not { } count)
        {
            return null;
        }

        int least = 0;
        while (CanCover(Serving(least + 1), All, count))
        {
            least++;
        }

        int[] stops = Earliest(least, count);
        return [.. stops.Select((p, s) => (p / 2.0, Listed(stops, s)))];
    }

    private ulong All => (1UL << _slack.Length) - 1;

    private int? Fewest()
    {
        HashSet<ulong> sets = Serving(0);
        int count = 0;
        while (count <= _slack.Length && !CanCover(sets, All, count))
        {
            count++;
        }

        return count <= _slack.Length ? count : null;
    }

    /// <summary>Point by point from 0 on: the first one with which the rest can still be done further on.</summary>
    private int[] Earliest(int least, int count)
    {
        Dictionary<ulong, int> last = [];
        foreach (int point in _allowed)
        {
            last[Serves(least, point)] = point;
        }

        List<int> stops = [];
        ulong open = All;
        foreach (int point in _allowed)
        {
            ulong rest = open & ~Serves(least, point);
            HashSet<ulong> further = [.. last.Where(l => l.Value > point).Select(l => l.Key)];
            if (stops.Count < count && CanCover(further, rest, count - stops.Count - 1))
            {
                stops.Add(point);
                open = rest;
            }
        }

        return [.. stops];
    }

    private List<(int Valve, double Slack)> Listed(int[] stops, int stop) =>
    [
        .. _slack.Index()
            .Where(v => Array.IndexOf([.. stops.Select(p => v.Item[p])], stops.Max(p => v.Item[p])) == stop)
            .Select(v => (v.Index, v.Item[stops[stop]] / 2.0)),
    ];

    private HashSet<ulong> Serving(int least) => [.. _allowed.Select(p => Serves(least, p))];

    private ulong Serves(int least, int point)
    {
        ulong served = 0;
        for (int v = 0; v < _slack.Length; v++)
        {
            served |= _slack[v][point] >= least ? 1UL << v : 0;
        }

        return served;
    }

    /// <summary>Some set serves the lowest open valve; each of them is tried.</summary>
    private static bool CanCover(HashSet<ulong> sets, ulong open, int count) =>
        open == 0 || (count > 0 && sets.Any(s => (s & open & (~open + 1)) != 0 && CanCover(sets, open & ~s, count - 1)));

    /// <summary>Half degrees from every point to the nearest one that is off the heel; -1 where it is off itself.</summary>
    private static int[] SlackOf(CrankLayout layout, TimedValve valve)
    {
        double fires = layout.FiringAngles[layout.FiringOrder.Index().Single(c => c.Item == valve.Cylinder).Index];
        var main = valve.Side == ValveSide.Intake
            ? new OffHeel(360 - valve.Events.Opens, valve.Events.Opens + 180 + valve.Events.Closes)
            : new OffHeel(180 - valve.Events.Opens, valve.Events.Opens + 180 + valve.Events.Closes);

        // Points strictly inside an interval are off the heel; its two ends are not.
        bool[] off = new bool[Points];
        foreach (OffHeel interval in valve.Also.Append(main))
        {
            int from = (int)(2 * (fires + interval.From - layout.Ramp));
            int length = (int)(2 * (interval.Length + (2 * layout.Ramp)));
            for (int i = 1; i < length; i++)
            {
                off[Point((from + i) / 2.0)] = true;
            }
        }

        return [.. Enumerable.Range(0, Points).Select(p => off[p] ? -1 : Enumerable.Range(1, Points).First(d =>
            off[(p + d) % Points] || off[(p - d + (2 * Points)) % Points]) - 1)];
    }

    private static int Point(double degrees) => (int)((((2 * degrees) % Points) + Points) % Points);
}
