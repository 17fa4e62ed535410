using Shimwright.Bench.Drawer;
using Shimwright.Domain.Drawer;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Settings;

namespace Shimwright.Bench.Orders;

/// <summary>A kit of the bench and what it is worth for the engines that come due.</summary>
/// <param name="Place">Its place among the bench's kits.</param>
/// <param name="Kit">The kit.</param>
/// <param name="Offer">What it is worth.</param>
public sealed record ComparedKit(int Place, KitOnOffer Kit, KitOffer Offer);

/// <summary>The bench's kits of one diameter, compared.</summary>
/// <param name="Diameter">Diameter, whole micrometres.</param>
/// <param name="Wanted">How many shims will be wanted, on average.</param>
/// <param name="Engines">By how many engines.</param>
/// <param name="Kits">The kits, the greatest gain first.</param>
public sealed record KitComparison(int Diameter, double Wanted, int Engines, IReadOnlyList<ComparedKit> Kits)
{
    /// <summary>What it is worth to have the right shim at hand, unless told otherwise: what one costs singly.</summary>
    /// <param name="settings">The bench's settings.</param>
    /// <returns>The worth, in the bench's currency.</returns>
    /// <exception cref="ArgumentNullException">There are no settings.</exception>
    public static double UsualWorth(BenchSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return settings.SizesToBuy.Select(k => k.Price).DefaultIfEmpty(0).Min();
    }

    /// <summary>Compares the kits of every diameter that has any.</summary>
    /// <param name="fleet">What the engines that come due will want.</param>
    /// <param name="settings">The bench's settings, its kits among them.</param>
    /// <param name="worth">What it is worth to have the right shim at hand.</param>
    /// <returns>One comparison a diameter, the smallest first.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static IReadOnlyList<KitComparison> Of(FleetOrders fleet, BenchSettings settings, double worth)
    {
        ArgumentNullException.ThrowIfNull(fleet);
        ArgumentNullException.ThrowIfNull(settings);
        double error = Math.Sqrt(Square(DirectValue.UsualUncertainty) + Square(settings.Seating) + Square(Instrument.Marked.Random));
        return
        [
            .. settings.KitsOffered.Index().GroupBy(k => ShimSize.Micrometres(k.Item.Diameter)).OrderBy(g => g.Key).Select(g =>
            {
                DiameterOrders? orders = fleet.Diameters.FirstOrDefault(d => d.Diameter == g.Key);
                (int Place, KitOnOffer Kit, Kit Domain)[] kits = [.. g.Select(k => (k.Index, k.Item, k.Item.ToKit()))];
                IReadOnlyList<KitOffer> offers = KitOffer.Compare([.. kits.Select(k => k.Domain)], orders?.Wants ?? [], error, worth);
                // The offer has the very kit that was given, so equal kits under two names stay apart.
                return new KitComparison(g.Key, orders?.Demand.Wanted ?? 0, orders?.Engines ?? 0,
                [
                    .. offers.Select(o => (Offer: o, Kit: kits.First(k => ReferenceEquals(k.Domain, o.Kit)))).Select(o => new ComparedKit(o.Kit.Place, o.Kit.Kit, o.Offer)),
                ]);
            }),
        ];
    }

    private static double Square(double x) => x * x;
}
