using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Jobs.FeelCalibration;

namespace Shimwright.Web.Files;

/// <summary>A person's trials for download: what the command calibrate reads.</summary>
internal static class FeelFiles
{
    public static void MapFeelFiles(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/feel/{id:guid}/trials.csv", Download).ExcludeFromDescription();

    private static async Task<Results<FileContentHttpResult, NotFound>> Download(Guid id, IBench bench, CancellationToken cancel) =>
        await bench.Feel.FindAsync(id, cancel) is { } person
            ? TypedResults.File(TrialFile.Write(person.Book.Trials), "text/csv; charset=utf-8", "feel-trials.csv")
            : TypedResults.NotFound();
}
