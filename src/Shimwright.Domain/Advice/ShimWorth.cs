using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Advice;

/// <summary>
/// What it is worth to measure a shim that is known by its mark or by calliper: one that the plan would fit, or one that it takes out. Over
/// five thicknesses that the micrometer may show (Gauss-Hermite), each planned from.
/// </summary>
internal static class ShimWorth
{
    /// <summary>The nodes and weights of five points against a standard normal density (Abramowitz and Stegun, table 25.10).</summary>
    private static readonly (double At, double Weight)[] Five =
    [
        (-2.856970013872806, 0.011257411327720691), (-1.355626179974266, 0.22207592200561266), (0, 0.5333333333333333),
        (1.355626179974266, 0.22207592200561266), (2.856970013872806, 0.011257411327720691),
    ];

    /// <summary>Options looked at instead of what is planned.</summary>
    private const int MostOptions = 12;

    /// <summary>All shims that the plan moves and that the micrometer has not seen.</summary>
    public static IEnumerable<Weighed> Weighed(AdviceRequest request, Outlook now, LocalWorth[] local)
    {
        if (request.Minutes.Micrometer is not { } takes || request.Plan.Fitted.Count == 0)
        {
            yield break;
        }

        HashSet<AdvisedShim> seen = [];
        foreach ((int v, PlannedValve line) in now.Plan.Valves.Index())
        {
            if (line.To is not { } to)
            {
                continue;
            }

            AdvisedShim fitted = new(to, line.Source!.Value, line.FromValve);
            foreach (AdvisedShim shim in (AdvisedShim[])[fitted, new(line.From!, ShimSource.Engine, v)])
            {
                if (shim.Thickness.By.Name != request.Micrometer.Name && seen.Add(shim))
                {
                    yield return new(
                        ActionKind.Micrometer, shim.FromValve, shim, Alone(now, local[v], v, shim, shim == fitted, request.Micrometer), takes,
                        net => Saving(now, shim, request.Micrometer, net + takes) is { } saves
                            ? new(ActionKind.Micrometer, saves, takes, shim.FromValve, [], shim, null, [])
                            : null);
                }
            }
        }
    }

    private static double? Saving(Outlook now, AdvisedShim shim, Instrument micrometer, double toSave)
    {
        double price = Price(now.Request, shim);
        return Expectation.Minutes(
            now, price, k => Five[k].Weight, Expectation.Order([.. Five.Select(n => n.Weight)], toSave),
            k => now.MinutesWith(Measured(now.Request, shim, Shown(shim, Five[k].At, micrometer)), now.Estimate), 0, toSave) is { } minutes
            ? now.Saving(price + Five.Index().Sum(n => n.Item.Weight * minutes[n.Index]))
            : null;
    }

    /// <summary>What has to be paid before it can be measured, minutes: a shim that is bought and then not used is money spent all the same.</summary>
    private static double Price(PlanRequest request, AdvisedShim shim) => shim.Source != ShimSource.Buy
        ? 0
        : request.Costs.MinutesPerCurrency * request.Stock.Sizes.Where(s => s.Thickness == shim.Thickness).Min(s => s.Price);

    /// <summary>With all else left as planned: the valve's own choice among what it has, the shim's thickness known.</summary>
    private static double Alone(Outlook now, LocalWorth local, int v, AdvisedShim shim, bool isFitted, Instrument micrometer)
    {
        ClearanceDistribution valve = now.Estimate.Valves[v];
        PlanRequest request = now.Request;
        ValveOption planned = now.Best.Choice[v];
        var leverage = Leverage.Of(request.Engine.Valvetrain);
        ValveOption[] others = isFitted
            ? []
            : [.. Fellows.FreeChanges(now, v, MostOptions)];
        double after = Five.Sum(node =>
        {
            Thickness shown = Shown(shim, node.At, micrometer);
            double Least(ValveOption o) => local.MinutesOf(o, valve.InBandAfter(ClearanceChange.Fitting(
                leverage, isFitted ? request.Fitted[v] : shown, isFitted ? shown : o.To!, request.Rules.Seating)));
            double best = others.Append(planned).Min(Least);
            return node.Weight * (isFitted ? Math.Min(best, local.Least) : best);
        });
        return local.Least - after;
    }

    /// <summary>What the micrometer would show.</summary>
    private static Thickness Shown(AdvisedShim shim, double sigmas, Instrument micrometer)
    {
        Instrument before = shim.Thickness.By;
        double spread = Squares.CombinedStandardUncertainty(before.Random, before.Systematic, micrometer.Random, micrometer.Systematic);
        return new Thickness(Math.Clamp(shim.Thickness.Millimetres + (sigmas * spread), Thickness.Thinnest, Thickness.Thickest), micrometer);
    }

    /// <summary>The job in which one such shim has been measured.</summary>
    private static PlanRequest Measured(PlanRequest request, AdvisedShim shim, Thickness shown)
    {
        Stock stock = request.Stock;
        switch (shim.Source)
        {
            case ShimSource.Engine:
                return request.With([.. request.Fitted.Select((t, v) => v == shim.FromValve ? shown : t)], stock);
            case ShimSource.Drawer:
                int at = stock.Drawer.Index().First(d => d.Item.Thickness == shim.Thickness && d.Item.Count > 0).Index;
                return request.With(request.Fitted, stock with
                {
                    Drawer = [.. stock.Drawer.Select((d, i) => i == at ? new DrawerShims(d.Thickness, d.Count - 1) : d), new DrawerShims(shown, 1)],
                });
            default:
                return request.With(request.Fitted, stock with { Drawer = [.. stock.Drawer, new DrawerShims(shown, 1)] });
        }
    }
}
