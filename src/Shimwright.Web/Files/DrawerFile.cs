using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Pages.Drawer;

namespace Shimwright.Web.Files;

/// <summary>The drawer for download.</summary>
internal static class DrawerFile
{
    public static void MapDrawerFile(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/drawer/drawer.csv", Download).ExcludeFromDescription();

    private static async Task<FileContentHttpResult> Download(IBench bench, CancellationToken cancel) =>
        TypedResults.File(Encoding.UTF8.GetBytes(DrawerLines.Write(await bench.Drawer.LotsAsync(cancel))), "text/csv; charset=utf-8", "drawer.csv");
}
