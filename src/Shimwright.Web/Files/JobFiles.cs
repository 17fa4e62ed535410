using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Web.Files;

/// <summary>A job's file for download: what the commands read, so that their figures can be compared.</summary>
internal static class JobFiles
{
    public static void MapJobFiles(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/jobs/{id:guid}/file", Download).ExcludeFromDescription();

    private static async Task<Results<FileContentHttpResult, NotFound>> Download(Guid id, IBench bench, CancellationToken cancel) =>
        await bench.Jobs.FindAsync(id, cancel) is { } job
            ? TypedResults.File(JobSheetFile.Write(job.Sheet), "application/json", NameOf(job))
            : TypedResults.NotFound();

    private static string NameOf(StoredJob job)
    {
        string name = new([.. job.Summary.Engine.Where(c => char.IsAsciiLetterOrDigit(c) || c is ' ' or '-').Take(40)]);
        return $"{name.Trim().Replace(' ', '-')}-{job.Summary.StartedAt:yyyyMMdd}.json";
    }
}
