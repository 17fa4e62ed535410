namespace Shimwright.Domain.CrankStops;

/// <summary>
/// The search behind a stop plan. With a smallest slack s demanded, every heel arc shrinks by s at both ends; a set of
/// stops that serves all valves can then be moved back, stop by stop, until each stands at the beginning of an arc or at
/// 0, so that only those angles need be tried. The largest s for which the fewest stops still do is found among the
/// values at which two arcs' shrinking ends meet.
/// </summary>
internal sealed class StopSearch(HeelArc[][] heels, double[]? marks)
{
    private readonly ulong _all = heels.Length == 64 ? ulong.MaxValue : (1UL << heels.Length) - 1;

    /// <summary>The angles of the best plan, rising; null where no set of stops serves every valve.</summary>
    public double[]? Best()
    {
        if (new StopCover(Serves(Candidates(0), 0)).Fewest(_all) is not { } fewest)
        {
            return null;
        }

        double[] slacks = Slacks();
        int low = 0;
        int high = slacks.Length - 1;
        while (low < high)
        {
            int middle = (low + high + 1) / 2;
            if (CanDo(slacks[middle], fewest))
            {
                low = middle;
            }
            else
            {
                high = middle - 1;
            }
        }

        return Earliest(slacks[low], fewest);
    }

    private bool CanDo(double slack, int count) =>
        new StopCover(Serves(Candidates(slack), slack)).CanServe(_all, count);

    /// <summary>The angles worth trying where every valve must have this much slack, rising.</summary>
    private double[] Candidates(double slack) => marks
        ?? [.. heels.SelectMany(h => h).Where(a => a.Length >= (2 * slack) - CrankAngle.Slack)
            .Select(a => Math.Round(CrankAngle.Wrap(a.From + slack), 9)).Append(0).Distinct().Order()];

    private ulong[] Serves(double[] candidates, double slack) => Array.ConvertAll(candidates, angle =>
    {
        ulong served = 0;
        for (int v = 0; v < heels.Length; v++)
        {
            if (heels[v].Length > 0 && StopPlan.SlackAt(heels[v], angle) >= slack - (2 * CrankAngle.Slack))
            {
                served |= 1UL << v;
            }
        }

        return served;
    });

    /// <summary>Every value that the largest smallest slack can have, rising, 0 among them.</summary>
    private double[] Slacks()
    {
        IEnumerable<double> values;
        if (marks is not null)
        {
            values = marks.SelectMany(m => heels.Where(h => h.Length > 0).Select(h => StopPlan.SlackAt(h, m)));
        }
        else
        {
            // A stop held between the beginning of one arc and the end of another; or at 0 and an end of one.
            HeelArc[] arcs = [.. heels.SelectMany(h => h)];
            values = arcs.SelectMany(a => arcs.Select(b => CrankAngle.Turn(a.From, b.From + b.Length) / 2))
                .Concat(arcs.Select(a => a.Length / 2));
        }

        return [.. values.Where(s => s >= 0).Append(0).Distinct().Order()];
    }

    /// <summary>
    /// The earliest first stop, then the earliest second one, and so on. What is still open may be served from anywhere:
    /// a plan with a stop that is earlier than the one just tried would have been found before it.
    /// </summary>
    private double[] Earliest(double slack, int count)
    {
        double[] candidates = Candidates(slack);
        ulong[] serves = Serves(candidates, slack);
        var cover = new StopCover(serves);
        List<double> stops = [];
        ulong open = _all;
        int next = 0;
        for (int left = count - 1; left >= 0; left--, next++)
        {
            while (!cover.CanServe(open & ~serves[next], left))
            {
                next++;
            }

            stops.Add(candidates[next]);
            open &= ~serves[next];
        }

        return [.. stops];
    }
}
