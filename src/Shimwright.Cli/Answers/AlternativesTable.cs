using System.Globalization;
using Shimwright.Domain.Planning;
using Spectre.Console;

namespace Shimwright.Cli.Answers;

/// <summary>The plans worth considering, least work first, the chosen one marked.</summary>
internal static class AlternativesTable
{
    private const int MostRows = 8;

    public static Table Of(Page page, PlanChoice plan)
    {
        Table table = Page.Table("", "All pass", "Work", "To come", "Together", "Changes", "To open", "To buy");
        table.Columns[6].NoWrap = false;
        table.Columns[7].NoWrap = false;
        IReadOnlyList<ShimPlan> all = plan.Alternatives;
        List<ShimPlan> shown = [.. Nearest(all, plan.Chosen)];
        foreach (ShimPlan other in shown)
        {
            table.AddRow(
                new Text(ReferenceEquals(other, plan.Chosen) ? "chosen" : ""),
                new Text(Page.Chance(other.ChanceAll)),
                new Text($"{Page.Minutes(other.WorkMinutes)} min"),
                new Text($"{Page.Minutes(other.ToComeMinutes)} min"),
                new Text($"{Page.Minutes(other.Minutes)} min"),
                new Text(other.Valves.Count(v => v.Action != ValveAction.Keep).ToString(CultureInfo.InvariantCulture)),
                new Text(Page.ToOpen(other)),
                new Text(page.ToBuy(other)));
        }

        if (shown.Count < all.Count)
        {
            table.Caption($"{all.Count - shown.Count} more between these; --json lists them all.");
        }

        return table;
    }

    /// <summary>The one of least work, the surest, the chosen one and its neighbours.</summary>
    private static IEnumerable<ShimPlan> Nearest(IReadOnlyList<ShimPlan> all, ShimPlan chosen)
    {
        int at = all.Index().First(p => ReferenceEquals(p.Item, chosen)).Index;
        int from = Math.Clamp(at - ((MostRows - 2) / 2), 0, Math.Max(0, all.Count - MostRows));
        int to = Math.Min(all.Count, from + MostRows);
        return all.Index()
            .Where(p => (p.Index >= from && p.Index < to) || p.Index == 0 || p.Index == all.Count - 1)
            .Select(p => p.Item);
    }
}
