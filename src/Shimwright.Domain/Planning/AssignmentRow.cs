namespace Shimwright.Domain.Planning;

/// <summary>
/// One valve's row of the assignment under one weighing: only what can be part of a best plan. Of the shims that
/// exist once, a row needs no more than there are valves, since the others can take at most one each; and none
/// that is no better than what the valve can have for itself.
/// </summary>
internal sealed class AssignmentRow
{
    public AssignmentRow(OptionTable options, int valve, Weighing weighing)
    {
        int valves = options.Kept.Length;
        Kept = options.Kept[valve];
        KeptCost = weighing.Of(Kept);
        Arc? own = null;
        foreach (ValveOption option in options.Private[valve])
        {
            Int128 cost = weighing.Of(option);
            if (own is null || cost < own.Value.Cost)
            {
                own = new Arc(options.Columns + valve, cost, option);
            }
        }

        List<(Int128 Cost, SharedOption Shared)> candidates = [];
        foreach (SharedOption shared in options.Shared[valve])
        {
            Int128 cost = weighing.Of(shared.Option);
            if (own is null || cost < own.Value.Cost)
            {
                candidates.Add((cost, shared));
            }
        }

        candidates.Sort((a, b) => a.Cost.CompareTo(b.Cost));
        List<Arc> changes = [];
        foreach ((Int128 cost, SharedOption shared) in candidates)
        {
            for (int k = 0; k < shared.Columns.Count && changes.Count < valves; k++)
            {
                changes.Add(new Arc(shared.Columns.First + k, cost, shared.Option));
            }
        }

        if (own is { } arc)
        {
            changes.Add(arc);
        }

        Changes = [.. changes];
    }

    public ValveOption Kept { get; }

    public Int128 KeptCost { get; }

    public Arc[] Changes { get; }

    /// <summary>What the best change would gain on staying, were its group open and no shim taken; at least 0.</summary>
    public Int128 Gain => Changes.Length == 0 ? 0 : Int128.Max(0, KeptCost - Changes.Min(c => c.Cost));

    internal readonly record struct Arc(int Column, Int128 Cost, ValveOption Option);
}
