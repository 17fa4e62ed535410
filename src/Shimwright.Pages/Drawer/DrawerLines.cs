using Shimwright.Bench.Drawer;
using Shimwright.Jobs.Tables;

namespace Shimwright.Pages.Drawer;

/// <summary>The drawer as a file of lines and columns: what lies in each compartment.</summary>
internal static class DrawerLines
{
    /// <summary>The lines; sizes of which there are none any more stand in it with 0.</summary>
    public static IEnumerable<DrawerLine> Of(IEnumerable<ShimLot> lots) => lots.Select(l =>
        new DrawerLine(0, l.Size.DiameterMm, l.Size.ThicknessMm, l.Size.By, l.Lying, l.Place.Length == 0 ? null : l.Place, l.Price));

    /// <summary>The lines of a file as counts.</summary>
    public static IReadOnlyList<ShimCount> Counts(DrawerReading reading) =>
        [.. reading.Lines.Select(l => new ShimCount(ShimSize.Of(l.Diameter, l.Thickness, l.By), l.Count, l.Place, l.Price))];
}
