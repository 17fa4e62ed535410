using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Metadata;

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
}
