namespace Shimwright.Domain.Planning;

/// <summary>
/// What may be done at one valve as far as it can be part of a best plan, whatever minutes and chances count. Shims of the drawer and
/// of the engine cost the same minutes, so the surest come first under every weighing; a valve needs no more of them than there are
/// valves, since the others can take at most one each. Of the sizes for sale those count that are surer than every cheaper one.
/// </summary>
internal sealed class ValveMoves
{
    public ValveMoves(OptionTable options, int valve)
    {
        int valves = options.Kept.Length;
        Kept = options.Kept[valve];
        Seated = options.Seated[valve];
        List<(int Column, ValveOption Option)> changes = [];
        foreach (SharedOption shared in options.Shared[valve].OrderByDescending(s => s.Option.Chance))
        {
            for (int k = 0; k < shared.Columns.Count && changes.Count < valves; k++)
            {
                changes.Add((shared.Columns.First + k, shared.Option));
            }
        }

        SharedCount = changes.Count;
        double surest = -1;
        foreach (ValveOption own in options.Private[valve].OrderBy(o => o.Minutes).ThenByDescending(o => o.Chance))
        {
            if (own.Chance > surest)
            {
                surest = own.Chance;
                changes.Add((options.Columns + valve, own));
            }
        }

        Columns = [.. changes.Select(c => c.Column)];
        Changes = [.. changes.Select(c => c.Option)];
        Doubt = [.. changes.Select(c => c.Option.Doubt)];
    }

    /// <summary>Leaving it while its group stays shut.</summary>
    public ValveOption Kept { get; }

    /// <summary>Leaving it while its group is opened.</summary>
    public ValveOption Seated { get; }

    /// <summary>All changes: the shims that exist once, surest first, then what only this valve can have, cheapest first.</summary>
    public ValveOption[] Changes { get; }

    /// <summary>For each change the shim that it uses up; one of its own for what only this valve can have.</summary>
    public int[] Columns { get; }

    /// <summary>For each change its doubt.</summary>
    public double[] Doubt { get; }

    /// <summary>How many of the changes use a shim that exists once.</summary>
    public int SharedCount { get; }

    /// <summary>What is done: a change by its place, or keeping where that is below 0.</summary>
    public ValveOption Option(int move, bool isOpened) => move >= 0 ? Changes[move] : isOpened ? Seated : Kept;
}
