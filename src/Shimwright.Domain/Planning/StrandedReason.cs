using System.Globalization;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Planning;

/// <summary>Why a valve cannot be brought into its band, in words that name the thickness it would want.</summary>
internal static class StrandedReason
{
    public static string Of(int v, PlanRequest request, EngineEstimate estimate, OptionTable options, ValveOption[] choice)
    {
        Engine engine = request.Engine;
        if (!engine.Valvetrain.HasShims)
        {
            return Text($"a screw set by feel lands in a band {engine.Valves[v].Band.Width:0.000} mm wide too rarely for the floor of {request.Rules.FitFloor:0.00}");
        }

        double wanted = request.Fitted[v].Millimetres
            + ((estimate.Valves[v].Mean - engine.Valves[v].Band.Middle) / engine.Valvetrain.Ratio);
        string wants = Text($"it would want about {wanted:0.00} mm");
        List<SharedOption> would = options.Shared[v];
        return would.Count > 0
            ? $"{wants}; {string.Join("; ", would.GroupBy(o => o.Option.To!.Millimetres).Select(g => Taken(g, engine, choice)).Distinct())}"
            : $"{wants}; {Range(request, v)}";
    }

    /// <summary>Who has the shims that would do.</summary>
    private static string Taken(IGrouping<double, SharedOption> size, Engine engine, ValveOption[] choice)
    {
        var holders = new List<string>();
        foreach (SharedOption shared in size)
        {
            if (shared.Option.FromValve is { } owner && !choice[owner].IsChange)
            {
                holders.Add(Text($"{engine.Valves[owner].Id} keeps its {size.Key:0.00}"));
            }

            holders.AddRange(choice.Index()
                .Where(c => c.Item.To is not null && c.Item.Source == shared.Option.Source
                    && c.Item.FromValve == shared.Option.FromValve && c.Item.To == shared.Option.To)
                .Select(c => Text($"{engine.Valves[c.Index].Id} takes the {size.Key:0.00} from the {Place(c.Item, engine)}")));
        }

        return string.Join(", ", holders.Distinct());
    }

    private static string Place(ValveOption option, Engine engine) => option.Source switch
    {
        ShimSource.Drawer => "drawer",
        ShimSource.Engine => engine.Valves[option.FromValve!.Value].Id,
        _ => "shop",
    };

    private static string Range(PlanRequest request, int v)
    {
        List<double> sizes =
        [
            .. request.Fitted.Where((_, other) => other != v).Select(t => t.Millimetres),
            .. request.Stock.Drawer.Where(d => d.Count > 0).Select(d => d.Thickness.Millimetres),
            .. request.Stock.Sizes.Select(s => s.Thickness.Millimetres),
        ];
        return sizes.Count == 0
            ? "there is nothing in the drawer and nothing to buy"
            : Text($"what can be had runs from {sizes.Min():0.00} to {sizes.Max():0.00} mm, and none of it would do");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
