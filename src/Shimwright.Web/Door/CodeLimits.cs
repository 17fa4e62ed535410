using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace Shimwright.Web.Door;

/// <summary>How often codes may be tried: a few a minute from one address, and not many from all of them.</summary>
internal static class CodeLimits
{
    /// <summary>How many codes may be tried a minute from one address.</summary>
    public const int OfOne = 5;

    /// <summary>How many from all.</summary>
    public const int OfAll = 30;

    private static readonly TimeSpan Window = TimeSpan.FromMinutes(1);

    public static IServiceCollection AddCodeLimits(this IServiceCollection services) => services.AddRateLimiter(limits =>
    {
        limits.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
        limits.OnRejected = (rejected, _) =>
        {
            rejected.HttpContext.RequestServices.GetRequiredService<SecurityLog>().TooMany(rejected.HttpContext.Connection.RemoteIpAddress);
            rejected.HttpContext.Response.Headers.RetryAfter = "60";
            return ValueTask.CompletedTask;
        };
        limits.GlobalLimiter = PartitionedRateLimiter.CreateChained(
            PartitionedRateLimiter.Create<HttpContext, string>(c => TriesACode(c) ? Limit(c.Connection.RemoteIpAddress?.ToString() ?? "", OfOne) : RateLimitPartition.GetNoLimiter("")),
            PartitionedRateLimiter.Create<HttpContext, string>(c => TriesACode(c) ? Limit("all", OfAll) : RateLimitPartition.GetNoLimiter("")));
    });

    /// <summary>By the page that answers, not by how the address is spelt: there are several ways to spell one.</summary>
    private static bool TriesACode(HttpContext context) => HttpMethods.IsPost(context.Request.Method) && context.GetEndpoint()?.Metadata.GetMetadata<ComponentTypeMetadata>()?.Type == typeof(EnterPage);

    private static RateLimitPartition<string> Limit(string of, int most) =>
        RateLimitPartition.GetFixedWindowLimiter(of, _ => new() { PermitLimit = most, Window = Window, QueueLimit = 0 });
}
