using Shimwright.Bench.Orders;
using Shimwright.Domain.Drawer;

namespace Shimwright.Pages.Drawer;

/// <summary>What to order as a file of lines and columns: the lines that the page shows.</summary>
internal static class OrderLines
{
    public static IEnumerable<(double Diameter, OrderLine Line)> Of(FleetOrders fleet) =>
        fleet.Diameters.SelectMany(d => OrderWords.Shown(d.Orders).Select(l => (d.DiameterMm, l)));
}
