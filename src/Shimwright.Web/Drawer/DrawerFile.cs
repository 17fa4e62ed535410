using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Bench.Drawer;
using Shimwright.Jobs.Tables;

namespace Shimwright.Web.Drawer;

/// <summary>The drawer as a file of lines and columns: what lies in each compartment.</summary>
internal static class DrawerFile
{
    public static void MapDrawerFile(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/drawer/drawer.csv", Download).ExcludeFromDescription();

    private static async Task<FileContentHttpResult> Download(IBench bench, CancellationToken cancel) =>
        TypedResults.File(Encoding.UTF8.GetBytes(Write(await bench.Drawer.LotsAsync(cancel))), "text/csv; charset=utf-8", "drawer.csv");

    /// <summary>The file; sizes of which there are none any more stand in it with 0.</summary>
    public static string Write(IEnumerable<ShimLot> lots) => DrawerTable.Write(lots.Select(l =>
        new DrawerLine(0, l.Size.DiameterMm, l.Size.ThicknessMm, l.Size.By, l.Lying, l.Place.Length == 0 ? null : l.Place, l.Price)));

    /// <summary>The lines of a file as counts.</summary>
    public static IReadOnlyList<ShimCount> Counts(DrawerReading reading) =>
        [.. reading.Lines.Select(l => new ShimCount(ShimSize.Of(l.Diameter, l.Thickness, l.By), l.Count, l.Place, l.Price))];
}
