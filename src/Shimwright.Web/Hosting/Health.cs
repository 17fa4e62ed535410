using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Pages.Visits;
using Shimwright.Storage;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.Hosting;

/// <summary>Whether the server's database answers, for whoever watches over the server.</summary>
internal static class Health
{
    private const string NoAnswer = "the database does not answer";

    /// <summary>Whoever asks for readiness gives up sooner than a server that does not answer is given up.</summary>
    private static readonly TimeSpan LongestToReady = TimeSpan.FromSeconds(3);

    public static void MapHealth(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/healthz", Answer).ForAccess(AccessRules.Open).ExcludeFromDescription();
        routes.MapGet("/readyz", AnswerReady).ForAccess(AccessRules.Open).ExcludeFromDescription();
    }

    // With words of its own: an answer without any is given a page, and pages need the database.
    private static async Task<Results<Ok<string>, ContentHttpResult>> Answer(IBench bench, CancellationToken cancel) =>
        await WhyAwayAsync(bench, cancel) is { } why ? TypedResults.Text(why, statusCode: StatusCodes.Status503ServiceUnavailable) : TypedResults.Ok("ok");

    private static async Task<ContentHttpResult> AnswerReady(IBench bench, TimeProvider time, CancellationToken cancel)
    {
        string? why;
        try
        {
            // Not by cancelling: a server that takes the connection and says nothing is waited for all the same.
            why = await WhyAwayAsync(bench, cancel).WaitAsync(LongestToReady, time, cancel);
        }
        catch (TimeoutException)
        {
            why = NoAnswer;
        }

        return why is null ? TypedResults.Text("ready") : TypedResults.Text($"not ready: {why}", statusCode: StatusCodes.Status503ServiceUnavailable);
    }

    private static async Task<string?> WhyAwayAsync(IBench bench, CancellationToken cancel)
    {
        try
        {
            return bench is not BenchDatabase database || await database.AnswersAsync(cancel) ? null : NoAnswer;
        }
        catch (Exception fault) when (BenchDatabase.WhyAway(fault) is { } why)
        {
            return $"the database takes nothing: {why.Reason}; {why.Next}";
        }
    }
}
