using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Pages.Files;
using Shimwright.Pages.Shell;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.Files;

/// <summary>Hands out the files of the pages at their addresses.</summary>
internal static class FileEndpoints
{
    public static void MapBenchFiles(this IEndpointRouteBuilder routes)
    {
        foreach (FileAddress file in FileAddresses.All)
        {
            routes.MapGet(file.Template, (HttpContext context, IBench bench, TimeProvider time, HostPages pages, CancellationToken cancel) => FetchAsync(file, new(bench, time, HomeOf(pages, context.Request), name => ValueOf(context.Request, name), cancel)))
                .ForAccess(file.Access).ExcludeFromDescription();
        }
    }

    private static async Task<Results<FileContentHttpResult, NotFound, BadRequest<string>>> FetchAsync(FileAddress address, FileAsk ask)
    {
        FileMade made = await address.Make(ask);
        return made.Problems.Count > 0 ? TypedResults.BadRequest(string.Join('\n', made.Problems))
            : made.File is not { } file ? TypedResults.NotFound()
            : TypedResults.File(file.Content, file.ContentType, address.IsShown ? null : file.Name);
    }

    private static string HomeOf(HostPages pages, HttpRequest request) => pages.Reach(new Uri($"{request.Scheme}://{request.Host}")).Start;

    private static string? ValueOf(HttpRequest request, string name) => request.RouteValues[name]?.ToString() ?? request.Query[name].FirstOrDefault();
}
