using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Drawer;
using Shimwright.Pages.Files;
using Shimwright.Pages.Visits;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.Files;

/// <summary>The addresses at which the files of the pages are fetched.</summary>
internal static class FileEndpoints
{
    public static void MapBenchFiles(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/jobs/{id:guid}/file", JobAsync).ForAccess(AccessRules.Look).ExcludeFromDescription();
        routes.MapGet("/jobs/{id:guid}/record.pdf", RecordAsync).ForAccess(AccessRules.Look).ExcludeFromDescription();
        routes.MapGet("/jobs/{id:guid}/photos/{photo:guid}", PhotoAsync).ForAccess(AccessRules.Look).ExcludeFromDescription();
        routes.MapGet("/jobs/{id:guid}/photos/{photo:guid}/thumb", ThumbAsync).ForAccess(AccessRules.Look).ExcludeFromDescription();
        routes.MapGet("/feel/{id:guid}/trials.csv", TrialsAsync).ForAccess(AccessRules.Look).ExcludeFromDescription();
        routes.MapGet("/drawer/drawer.csv", DrawerAsync).ForAccess(AccessRules.Look).ExcludeFromDescription();
        routes.MapGet("/drawer/orders.csv", OrdersAsync).ForAccess(AccessRules.Look).ExcludeFromDescription();
        routes.MapGet("/settings/workshop/logo", LogoAsync).ForAccess(AccessRules.Look).ExcludeFromDescription();
        routes.MapGet("/engines/{id:guid}/engine.zip", EngineAsync).ForAccess(AccessRules.Own).ExcludeFromDescription();
        routes.MapGet("/settings/copies/bench.zip", ArchiveAsync).ForAccess(AccessRules.Own).ExcludeFromDescription();
    }

    private static async Task<Results<FileContentHttpResult, NotFound>> JobAsync(Guid id, IBench bench, CancellationToken cancel) =>
        OrNotFound(await BenchFiles.JobAsync(bench, id, cancel));

    private static async Task<Results<FileContentHttpResult, NotFound>> RecordAsync(Guid id, IBench bench, TimeProvider time, CancellationToken cancel) =>
        OrNotFound(await BenchFiles.RecordAsync(bench, id, time, cancel));

    private static async Task<Results<FileContentHttpResult, NotFound>> PhotoAsync(Guid id, Guid photo, IBench bench, CancellationToken cancel) =>
        Shown(await BenchFiles.PhotoAsync(bench, id, photo, small: false, cancel));

    private static async Task<Results<FileContentHttpResult, NotFound>> ThumbAsync(Guid id, Guid photo, IBench bench, CancellationToken cancel) =>
        Shown(await BenchFiles.PhotoAsync(bench, id, photo, small: true, cancel));

    private static async Task<Results<FileContentHttpResult, NotFound>> TrialsAsync(Guid id, IBench bench, CancellationToken cancel) =>
        OrNotFound(await BenchFiles.TrialsAsync(bench, id, cancel));

    private static async Task<FileContentHttpResult> DrawerAsync(IBench bench, CancellationToken cancel) => Of(await BenchFiles.DrawerAsync(bench, cancel));

    private static async Task<Results<FileContentHttpResult, NotFound>> LogoAsync(IBench bench, CancellationToken cancel) => Shown(await BenchFiles.LogoAsync(bench, cancel));

    private static async Task<Results<FileContentHttpResult, NotFound>> EngineAsync(Guid id, IBench bench, TimeProvider time, CancellationToken cancel) =>
        OrNotFound(await BenchFiles.EngineAsync(bench, id, time.GetUtcNow().UtcDateTime, cancel));

    private static async Task<FileContentHttpResult> ArchiveAsync(IBench bench, TimeProvider time, CancellationToken cancel) =>
        Of(await BenchFiles.ArchiveAsync(bench, time.GetUtcNow().UtcDateTime, cancel));

    private static async Task<Results<FileContentHttpResult, BadRequest<string>>> OrdersAsync(IBench bench, string? days, string? level, CancellationToken cancel)
    {
        List<JobProblem> problems = [];
        OrderQuery query = OrderQuery.Read(days, level, problems);
        return problems.Count > 0 ? TypedResults.BadRequest(string.Join('\n', problems)) : Of(await BenchFiles.OrdersAsync(bench, query, cancel));
    }

    private static Results<FileContentHttpResult, NotFound> OrNotFound(BenchFile? file) => file is null ? TypedResults.NotFound() : Of(file);

    /// <summary>A picture within a page: not to be saved under a name.</summary>
    private static Results<FileContentHttpResult, NotFound> Shown(BenchFile? file) => file is null ? TypedResults.NotFound() : TypedResults.File(file.Content, file.ContentType);

    private static FileContentHttpResult Of(BenchFile file) => TypedResults.File(file.Content, file.ContentType, file.Name);
}
