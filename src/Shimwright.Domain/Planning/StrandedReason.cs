using System.Globalization;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Planning;

/// <summary>Why a valve cannot be brought into its band, in words that name the thickness it would want.</summary>
internal sealed class StrandedReason(
    PlanRequest request, EngineEstimate estimate, OptionTable options, ValveOption[] choice, LengthWords words)
{
    private readonly Engine _engine = request.Engine;

    public string Of(int v)
    {
        ClearanceBand band = _engine.Valves[v].Band;
        if (!_engine.Valvetrain.HasShims)
        {
            return string.Create(
                CultureInfo.InvariantCulture,
                $"a screw set by feel lands in a band {words.Clearance(band.Width)} {words.Unit} wide too rarely for the floor of {request.Rules.FitFloor:0.00}");
        }

        double wanted = Adjusting.Leverage.Of(_engine.Valvetrain).Wanted(request.Fitted[v].Millimetres, estimate.Valves[v].Mean, band.Middle);
        List<SharedOption> would = options.Shared[v];
        string why = would.Count > 0
            ? string.Join("; ", would.GroupBy(o => o.Option.To!.Millimetres).Select(Taken).Distinct())
            : Range(v);
        return $"it would want about {words.Shim(Math.Round(wanted, 2))} {words.Unit}; {why}";
    }

    /// <summary>Who has the shims of a size that would do.</summary>
    private string Taken(IGrouping<double, SharedOption> size)
    {
        var holders = new List<string>();
        foreach (SharedOption shared in size)
        {
            if (shared.Option.FromValve is { } owner && !choice[owner].IsChange)
            {
                holders.Add($"{_engine.Valves[owner].Id} keeps its {words.Shim(size.Key)}");
            }

            holders.AddRange(choice.Index()
                .Where(c => c.Item.To is not null && c.Item.Source == shared.Option.Source
                    && c.Item.FromValve == shared.Option.FromValve && c.Item.To == shared.Option.To)
                .Select(c => $"{_engine.Valves[c.Index].Id} takes the {words.Shim(size.Key)} from {Place(c.Item)}"));
        }

        return string.Join(", ", holders.Distinct());
    }

    private string Place(ValveOption option) =>
        option.FromValve is { } giver ? _engine.Valves[giver].Id : "the drawer";

    private string Range(int v)
    {
        List<double> sizes =
        [
            .. request.Fitted.Where((_, other) => other != v).Select(t => t.Millimetres),
            .. request.Stock.Drawer.Where(d => d.Count > 0).Select(d => d.Thickness.Millimetres),
            .. request.Stock.Sizes.Select(s => s.Thickness.Millimetres),
        ];
        return sizes.Count == 0
            ? "there is nothing in the drawer and nothing to buy"
            : $"what can be had runs from {words.Shim(sizes.Min())} to {words.Shim(sizes.Max())} {words.Unit}, and none of it would do";
    }
}
