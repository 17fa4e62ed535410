using Shimwright.Domain.Planning;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>Drawer and shop.</summary>
internal static class StockSection
{
    private const int MostCount = 10_000;
    private const int MostDrawerLines = 10_000;
    private const int MostRanges = 100;

    private static readonly NumberMember Price = new("price", new(0, PlanCosts.Greatest), "Price of one, in the bench's currency.", 0);

    public static Stock Read(ObjectMembers o, InstrumentSet instruments) => new(
        o.List("drawer", d => ReadDrawer(d, instruments), (0, MostDrawerLines), "The shims in the drawer."),
        [.. o.OneOrMany("buy", ReadRange, MostRanges, "Sizes that can be bought.").SelectMany(r => r.Sizes(instruments.Marked))]);

    private static DrawerShims? ReadDrawer(ObjectMembers o, InstrumentSet instruments)
    {
        Thickness? thickness = ThicknessSection.Read(o, instruments);
        int? count = o.Whole("count", 0, MostCount, "How many there are.");
        double? marked = o.Number("marked", ThicknessSection.Rule, "What is marked on a shim that was measured, mm; it is found by that.");
        if (marked is not null && thickness?.By.Name == instruments.Marked.Name)
        {
            o.Problem("marked", $"found {NumberRule.Text(marked.Value)} beside a thickness that is its mark", "marked belongs to a shim that was measured; say by what");
        }

        return thickness is null ? null : new DrawerShims(new Thickness(thickness.Millimetres, thickness.By, marked), count ?? 1);
    }

    private static SizeRange? ReadRange(ObjectMembers o)
    {
        double? from = o.Number("from", ThicknessSection.Rule, "First size, mm.", required: true);
        double? to = o.Number("to", ThicknessSection.Rule, "Last size, mm.", required: true);
        double? step = o.Number("step", new(0.0001, Thickness.Thickest, Measure.Length), "Distance of the sizes, mm.", required: true);
        double price = o.Number(Price);
        if (from is not { } a || to is not { } b || step is not { } s)
        {
            return null;
        }

        if (a > b)
        {
            o.Problem("to", $"found {NumberRule.Text(b)}", $"allowed is from {NumberRule.Text(a)} on, the first size");
            return null;
        }

        if (SizeRange.CountOf(a, b, s) is var count && count > SizeRange.MostSizes)
        {
            o.Problem("step", $"found {NumberRule.Text(s)}, which makes {count} sizes", $"a range has at most {SizeRange.MostSizes}");
            return null;
        }

        return new SizeRange(a, b, s, price);
    }
}
