using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Metadata;
using Shimwright.Pages.Visits;

namespace Shimwright.Web.Shell;

/// <summary>Bodies that say themselves that they are too large are refused before any of them is read; the server cuts off the others.</summary>
internal static class BodyLimit
{
    public static Task Check(HttpContext context, Func<Task> next)
    {
        long limit = context.GetEndpoint()?.Metadata.GetMetadata<IRequestSizeLimitMetadata>()?.MaxRequestBodySize ?? BenchServer.LargestBody;
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
