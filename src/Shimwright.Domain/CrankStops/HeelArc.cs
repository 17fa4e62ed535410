namespace Shimwright.Domain.CrankStops;

/// <summary>An arc of the cycle on which a valve stands on its heel; both ends belong to it.</summary>
/// <param name="From">Where it begins, crank degrees in [0, 720).</param>
/// <param name="Length">How long it is, crank degrees, in running direction.</param>
public readonly record struct HeelArc(double From, double Length)
{
    /// <summary>How far inside the arc an angle lies: the distance to the nearer end; negative outside.</summary>
    /// <param name="angle">A crank angle.</param>
    /// <returns>Crank degrees.</returns>
    public double SlackAt(double angle)
    {
        // An angle within rounding before the beginning is no turn along, see CrankAngle.Wrap.
        double along = CrankAngle.Turn(From, angle);
        return Math.Min(along, Length - along);
    }

    /// <summary>What remains of the cycle between intervals off the heel.</summary>
    /// <param name="off">Intervals off the heel, at least one, on the whole cycle.</param>
    /// <returns>The arcs, none where nothing remains.</returns>
    public static IReadOnlyList<HeelArc> Between(IEnumerable<OffHeel> off)
    {
        List<(double From, double To)> busy = [];
        foreach (OffHeel interval in off)
        {
            if (interval.Length >= CrankAngle.Cycle)
            {
                return [];
            }

            double from = CrankAngle.Wrap(interval.From);
            busy.Add((from, from + interval.Length));
        }

        busy.Sort();
        List<HeelArc> arcs = [];
        double reached = busy.Max(b => b.To) - CrankAngle.Cycle;
        foreach ((double from, double to) in busy)
        {
            if (from >= reached - CrankAngle.Slack)
            {
                arcs.Add(new HeelArc(CrankAngle.Wrap(reached), Math.Max(0, from - reached)));
            }

            reached = Math.Max(reached, to);
        }

        return arcs;
    }
}
