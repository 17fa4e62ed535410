using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Pages.Files;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.Files;

/// <summary>Hands out the files of the pages at their addresses.</summary>
internal static class FileEndpoints
{
    public static void MapBenchFiles(this IEndpointRouteBuilder routes)
    {
        foreach (FileAddress file in FileAddresses.All)
        {
            routes.MapGet(file.Template, (HttpContext context, IBench bench, TimeProvider time, CancellationToken cancel) => FetchAsync(file, context.Request, bench, time, cancel))
                .ForAccess(file.Access).ExcludeFromDescription();
        }
    }

    private static async Task<Results<FileContentHttpResult, NotFound, BadRequest<string>>> FetchAsync(FileAddress address, HttpRequest request, IBench bench, TimeProvider time, CancellationToken cancel)
    {
        FileMade made = await address.Make(new(bench, time, name => request.RouteValues[name]?.ToString() ?? request.Query[name].FirstOrDefault(), cancel));
        return made.Problems.Count > 0 ? TypedResults.BadRequest(string.Join('\n', made.Problems))
            : made.File is not { } file ? TypedResults.NotFound()
            : TypedResults.File(file.Content, file.ContentType, address.IsShown ? null : file.Name);
    }
}
