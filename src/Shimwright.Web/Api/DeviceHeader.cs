using Microsoft.AspNetCore.Http;
using Shimwright.Jobs.Members;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.Api;

/// <summary>An endpoint that saves something.</summary>
internal sealed class Writes;

/// <summary>An endpoint whose access is not as usual: who is let in reads, a mechanic saves.</summary>
/// <param name="Rule">The rule.</param>
internal sealed record ApiAccess(string Rule);

/// <summary>An endpoint that takes a body.</summary>
/// <param name="Name">The name of its kind.</param>
/// <param name="About">What stands in it.</param>
internal sealed record TakesBody(string Name, string About);

/// <summary>
/// The header by which a program says which device it is. Whatever saves needs it: it names who sent a fact, and a page of
/// another site cannot set it without the browser asking this server first, which says no.
/// </summary>
internal static class DeviceHeader
{
    public const string Name = "X-Shimwright-Device";

    private const int Longest = 200;

    /// <summary>Who sends: what it was let in as, else what it calls itself.</summary>
    public static string Of(HttpRequest request) => Visitor.SignatureOf(request.HttpContext.User) ?? request.Headers[Name].ToString();

    /// <summary>Refuses to save for a device that has no name.</summary>
    public static async ValueTask<object?> Require(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        string device = context.HttpContext.Request.Headers[Name].ToString();
        if (context.HttpContext.GetEndpoint()?.Metadata.GetMetadata<Writes>() is null
            || (!string.IsNullOrWhiteSpace(device) && device.Length <= Longest && !device.Any(char.IsControl)))
        {
            return await next(context);
        }

        return new Refused<BadJson>(new JobProblem($"header {Name}", device.Length == 0 ? "missing" : "found no name", $"a name for this device of 1 to {Longest} characters"));
    }
}
