using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Extensions.Primitives;
using Shimwright.Storage;

namespace Shimwright.Web.Api;

/// <summary>Under /api every answer that is an error is a problem document; pages have pages for theirs.</summary>
internal static class ApiErrors
{
    /// <summary>After how long it is worth asking a bench again that did not answer, seconds.</summary>
    public const string RetrySeconds = "10";

    /// <summary>Whether an address is one of the API.</summary>
    public static bool IsApi(PathString path) => path.StartsWithSegments("/api", StringComparison.OrdinalIgnoreCase);

    /// <summary>Writes a problem where a status was set without a word, as for an address or a method that is not there.</summary>
    public static async Task Describe(HttpContext context, Func<Task> next)
    {
        if (!IsApi(context.Request.Path))
        {
            await next();
            return;
        }

        if (context.Features.Get<IStatusCodePagesFeature>() is { } pages)
        {
            pages.Enabled = false;
        }

        try
        {
            await next();
        }
        catch (BadHttpRequestException bad) when (!context.Response.HasStarted)
        {
            context.Response.StatusCode = bad.StatusCode;
        }
        catch (IOException unreadable) when (!context.Response.HasStarted && unreadable.InnerException is OverflowException)
        {
            // A piece of the body that says it is longer than any number; the server has no word of its own for that.
            context.Response.StatusCode = StatusCodes.Status400BadRequest;
        }

        if (context.Response is { StatusCode: >= 400, HasStarted: false, ContentType: null })
        {
            await WriteAsync(context, Of(context.Response.StatusCode));
        }
    }

    /// <summary>A fault of the program, for the API; the log has the rest.</summary>
    public static async Task<bool> TryWriteFaultAsync(HttpContext context, Exception fault)
    {
        // The path of the request is that of the page for faults by now.
        if (!IsApi(context.Features.Get<IExceptionHandlerPathFeature>()?.Path))
        {
            return false;
        }

        await WriteAsync(context, BenchDatabase.WhyAway(fault) is { } why
            ? Of(StatusCodes.Status503ServiceUnavailable) with { Errors = [new("the bench's database", why.Reason, why.Next)] }
            : Of(StatusCodes.Status500InternalServerError));
        return true;
    }

    public static Task WriteAsync(HttpContext context, ApiProblem problem)
    {
        context.Response.StatusCode = problem.Status;
        if (problem.Status == StatusCodes.Status503ServiceUnavailable && StringValues.IsNullOrEmpty(context.Response.Headers.RetryAfter))
        {
            context.Response.Headers.RetryAfter = RetrySeconds;
        }

        return context.Response.WriteAsJsonAsync(problem, options: null, "application/problem+json");
    }

    private static ApiProblem Of(int status) => new("about:blank", status switch
    {
        401 => "This program is not let in. An owner lets it in with: shimwright device add NAME --role mechanic. Send its token as Authorization: Bearer TOKEN.",
        403 => NotForYou.Title,
        429 => "Too many at once; wait a minute.",
        404 => "There is no such address; /openapi/v1.json lists them all.",
        405 => "This address takes another method; /openapi/v1.json lists them all.",
        413 => TooLarge.Title,
        415 => WrongKind.Title,
        503 => "The bench's database does not answer. What was saved before is kept; what you sent may not be.",
        500 => "That was a fault of the program. What was saved before is kept.",
        _ => ReasonPhrases.GetReasonPhrase(status),
    }, status, []);
}

/// <summary>Faults under /api become problems; all others are left to the page for faults.</summary>
internal sealed class ApiFaults : IExceptionHandler
{
    public ValueTask<bool> TryHandleAsync(HttpContext httpContext, Exception exception, CancellationToken cancellationToken) =>
        new(ApiErrors.TryWriteFaultAsync(httpContext, exception));
}
