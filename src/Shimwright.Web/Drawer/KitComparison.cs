using Shimwright.Bench.Drawer;
using Shimwright.Bench.Orders;
using Shimwright.Domain.Drawer;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Settings;

namespace Shimwright.Web.Drawer;

/// <summary>A kit of the bench and what it is worth for the engines that come due.</summary>
/// <param name="Place">Its place among the bench's kits.</param>
/// <param name="Kit">The kit.</param>
/// <param name="Offer">What it is worth.</param>
internal sealed record ComparedKit(int Place, KitOnOffer Kit, KitOffer Offer);

/// <summary>The bench's kits of one diameter, compared.</summary>
/// <param name="Diameter">Diameter, whole micrometres.</param>
/// <param name="Wanted">How many shims will be wanted, on average.</param>
/// <param name="Engines">By how many engines.</param>
/// <param name="Kits">The kits, the greatest gain first.</param>
internal sealed record KitComparison(int Diameter, double Wanted, int Engines, IReadOnlyList<ComparedKit> Kits)
{
    /// <summary>What it is worth to have the right shim at hand, unless told otherwise: what one costs singly.</summary>
    public static double UsualWorth(BenchSettings settings) => settings.SizesToBuy.Select(k => k.Price).DefaultIfEmpty(0).Min();

    /// <summary>Compares the kits of every diameter that has any.</summary>
    public static IReadOnlyList<KitComparison> Of(FleetOrders fleet, BenchSettings settings, double worth)
    {
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
