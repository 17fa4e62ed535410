using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Metadata;
using Shimwright.Jobs.Bounds;
using Shimwright.Pages.Visits;

namespace Shimwright.Web.Requests;

/// <summary>Bodies that say themselves that they are too large are refused before any of them is read; the server cuts off the others.</summary>
internal static class BodyLimit
{
    /// <summary>The largest body of an ordinary request, bytes; a job file that is taken in may be larger.</summary>
    public const long Usual = Limits.LargestRequest;

    public static Task Check(HttpContext context, Func<Task> next)
    {
        long limit = context.GetEndpoint()?.Metadata.GetMetadata<IRequestSizeLimitMetadata>()?.MaxRequestBodySize ?? Usual;
        if (!(context.Request.ContentLength > limit))
        {
            return next();
        }

        context.Response.StatusCode = StatusCodes.Status413PayloadTooLarge;
        return Task.CompletedTask;
    }

    /// <summary>Tells the server what a page says of the files that are sent to it.</summary>
    public static void OfPage(EndpointBuilder page)
    {
        if (page.Metadata.OfType<LargestBodyAttribute>().LastOrDefault() is { } largest)
        {
            page.Metadata.Add(new PageLimit(largest.Bytes));
        }
    }

    private sealed record PageLimit(long? MaxRequestBodySize) : IRequestSizeLimitMetadata;
}
