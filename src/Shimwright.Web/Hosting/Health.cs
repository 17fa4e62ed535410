using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Storage;

namespace Shimwright.Web.Hosting;

/// <summary>Whether the server's database answers, for whoever watches over the server.</summary>
internal static class Health
{
    public static void MapHealth(this IEndpointRouteBuilder routes) => routes.MapGet("/healthz", Answer).ExcludeFromDescription();

    // With words of its own: an answer without any is given a page, and pages need the database.
    private static async Task<Results<Ok<string>, ContentHttpResult>> Answer(IBench bench, CancellationToken cancel)
    {
        try
        {
            if (bench is not BenchDatabase database || await database.AnswersAsync(cancel))
            {
                return TypedResults.Ok("ok");
            }
        }
        catch (Exception fault) when (BenchDatabase.WhyAway(fault) is { } why)
        {
            return TypedResults.Text($"the database takes nothing: {why.Reason}; {why.Next}", statusCode: StatusCodes.Status503ServiceUnavailable);
        }

        return TypedResults.Text("the database does not answer", statusCode: StatusCodes.Status503ServiceUnavailable);
    }
}
