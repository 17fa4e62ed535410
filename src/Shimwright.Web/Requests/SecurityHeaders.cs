using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Primitives;
using Shimwright.Web.PhoneBench;

namespace Shimwright.Web.Requests;

/// <summary>What every answer tells the browser to refuse, and not to keep.</summary>
internal static class SecurityHeaders
{
    private const string Policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; "
        + "form-action 'self'; frame-ancestors 'none'; base-uri 'self'; object-src 'none'";

    /// <summary>The bench in a phone is a program of the browser's own kind, and shows pictures out of the browser's store.</summary>
    private const string PocketPolicy =
        "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; "
        + "manifest-src 'self'; form-action 'none'; frame-ancestors 'none'; base-uri 'none'; object-src 'none'";

    public static Task Add(HttpContext context, Func<Task> next)
    {
        // At the last moment: who answers a fault clears whatever was set before it.
        context.Response.OnStarting(Set, context);
        return next();
    }

    private static Task Set(object of)
    {
        var context = (HttpContext)of;
        IHeaderDictionary headers = context.Response.Headers;
        headers.ContentSecurityPolicy = context.Request.Path.StartsWithSegments(PocketFiles.Address, StringComparison.Ordinal) ? PocketPolicy : Policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=(), screen-wake-lock=(self)";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        if (StringValues.IsNullOrEmpty(headers.CacheControl))
        {
            // Pages and files show what belongs to the bench and its customers. The program's own files say themselves how long they keep.
            headers.CacheControl = "no-store";
        }

        return Task.CompletedTask;
    }
}
