using Shimwright.Domain.Planning;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Advice;

/// <summary>
/// The other valves while one is weighed: those of its access group as they would be with the group shut or open, all others as planned.
/// Where the plan has the group the other way round, each valve of it does there what it likes best.
/// </summary>
/// <param name="Minutes">What the valves of the group come to, less what they come to in the plan, minutes.</param>
/// <param name="OfGroup">The chance that they all pass.</param>
/// <param name="OfAll">The chance that all valves but the one that is weighed pass.</param>
/// <param name="IsOpened">Whether one of them is changed, so that the group is opened whatever the weighed valve does.</param>
/// <param name="ToOpen">Minutes to open the group; where one of them is changed they are in what it comes to.</param>
internal readonly record struct Fellows(double Minutes, double OfGroup, double OfAll, bool IsOpened, double ToOpen)
{
    /// <summary>The group shut; null where a valve of it would be stranded that the plan helps.</summary>
    public static Fellows? Shut(Outlook now, int valve)
    {
        int[] fellows = Of(now, valve);
        ValveOption[] choice = now.Best.Choice;
        ValveOption[] kept = now.Options.Kept;
        return fellows.Any(v => kept[v].IsStranded && !choice[v].IsStranded) ? null
            : With(now, valve, fellows, IsOpenedByPlan(now, valve) ? v => kept[v] : v => choice[v]);
    }

    /// <summary>The group open.</summary>
    public static Fellows Open(Outlook now, int valve)
    {
        int[] fellows = Of(now, valve);
        ValveOption[] choice = now.Best.Choice;
        return With(now, valve, fellows, IsOpenedByPlan(now, valve) ? v => choice[v] : v => Liked(now, v));
    }

    /// <summary>The changes of a valve that are nearest to what it wants and take no other valve's shim.</summary>
    public static IEnumerable<ValveOption> FreeChanges(Outlook now, int valve, int most) =>
        now.Options.Nearest(valve, most, s => IsFree(now, valve, s.Thickness, s.Source, s.FromValve));

    /// <summary>Whether another valve of the plan takes the shim that lies in this one, so that it cannot be kept; where the group is shut, one outside it.</summary>
    public static bool IsTaken(Outlook now, int valve, bool isShut)
    {
        IReadOnlyList<Engines.Valve> valves = now.Request.Engine.Valves;
        return now.Best.Choice.Index().Any(c => c.Item.FromValve == valve && (!isShut || valves[c.Index].Group != valves[valve].Group));
    }

    /// <summary>Whether the plan opens the group of a valve.</summary>
    public static bool IsOpenedByPlan(Outlook now, int valve) => now.Best.Choice[valve].IsChange || Of(now, valve).Any(v => now.Best.Choice[v].IsChange);

    private static int[] Of(Outlook now, int valve)
    {
        IReadOnlyList<Engines.Valve> valves = now.Request.Engine.Valves;
        return [.. Enumerable.Range(0, valves.Count).Where(v => v != valve && valves[v].Group == valves[valve].Group)];
    }

    /// <summary>Whether no other valve takes a shim that a change would fit.</summary>
    private static bool IsFree(Outlook now, int valve, Thickness to, ShimSource source, int? fromValve)
    {
        ValveOption[] choice = now.Best.Choice;
        return source switch
        {
            ShimSource.Buy => true,
            ShimSource.Engine => choice[fromValve!.Value].IsChange && !choice.Where((c, v) => v != valve && c.FromValve == fromValve).Any(),
            _ => choice.Where((c, v) => v != valve && c.Source == ShimSource.Drawer && c.To == to).Count()
                < now.Request.Stock.Drawer.Where(d => d.Thickness == to).Sum(d => d.Count),
        };
    }

    private static Fellows With(Outlook now, int valve, int[] fellows, Func<int, ValveOption> optionOf)
    {
        ValveOption[] choice = now.Best.Choice;
        double again = now.Request.Again;
        double toOpen = now.Request.Costs.ToOpen(now.Request.Engine.Valves[valve].Group);
        double others = Enumerable.Range(0, choice.Length).Where(v => v != valve && !fellows.Contains(v)).Aggregate(1.0, (p, v) => p * Passes(choice[v]));
        (double minutes, double chance, bool isOpened) = (0, 1, false);
        foreach (int v in fellows)
        {
            ValveOption option = optionOf(v);
            minutes += option.Minutes - choice[v].Minutes + (again * (Passes(choice[v]) - Passes(option)));
            chance *= Passes(option);
            isOpened |= option.IsChange;
        }

        minutes += (isOpened ? toOpen : 0) - (fellows.Any(v => choice[v].IsChange) ? toOpen : 0);
        return new(minutes, chance, others * chance, isOpened, toOpen);
    }

    /// <summary>The chance that a valve passes; none where nothing serves it.</summary>
    private static double Passes(ValveOption option) => option.IsStranded ? 0 : option.Chance;

    /// <summary>What a valve likes best where its group is open: each minute of another round counted, and the group lifted once more.</summary>
    private static ValveOption Liked(Outlook now, int v)
    {
        OptionTable options = now.Options;
        double failing = now.Request.Again + now.Request.Costs.Redo + now.Request.Costs.AccessOf(now.Request.Engine.Valves[v].Group);
        return options.Private[v].Concat(options.Shared[v].Select(s => s.Option).Where(o => IsFree(now, v, o.To!, o.Source, o.FromValve))).Append(options.Seated[v])
            .MinBy(o => o.IsStranded ? double.PositiveInfinity : o.Minutes + (failing * o.Failing))!;
    }
}
