using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http;
using Shimwright.Web.Api;

namespace Shimwright.Web.Requests;

/// <summary>The page that says what went wrong is fetched, whatever was sent before: a form that was refused is not sent once more.</summary>
internal static class ErrorPages
{
    public const string Address = "/error";

    private static readonly object Method = new();

    /// <summary>How the request came that the page is about.</summary>
    public static string? MethodOf(HttpContext context) => context.Items[Method] as string;

    public static async Task Fetch(HttpContext context, Func<Task> next)
    {
        bool isAboutAnError = context.Features.Get<IStatusCodeReExecuteFeature>() is not null || context.Features.Get<IExceptionHandlerFeature>() is not null;
        if (isAboutAnError)
        {
            context.Items[Method] = context.Request.Method;
            context.Request.Method = HttpMethods.Get;
            context.Request.ContentLength = 0;
            context.Request.ContentType = null;
        }

        if (isAboutAnError && context.Response.StatusCode == StatusCodes.Status503ServiceUnavailable)
        {
            // A page that was only asked for comes back by itself. What was sent is not sent again: that is for the person to do.
            context.Response.Headers.RetryAfter = ApiErrors.RetrySeconds;
            if (HttpMethods.IsGet(MethodOf(context) ?? ""))
            {
                context.Response.Headers["Refresh"] = ApiErrors.RetrySeconds;
            }
        }

        await next();

        // A page that refuses a form has said by then that it is HTML, and says nothing: without that the page about the error is fetched.
        if (!isAboutAnError && context.Response is { StatusCode: StatusCodes.Status400BadRequest, HasStarted: false })
        {
            context.Response.ContentType = null;
        }
    }
}
