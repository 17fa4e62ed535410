using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.Requests;

/// <summary>Which device a person works on: what it was let in as, else a random name in a cookie, so that what it sends can be told from what others send.</summary>
internal static class DeviceCookie
{
    private static readonly object Key = new();

    /// <summary>Gives every new device its name, and begins the visit, before a page is made.</summary>
    public static Task Name(HttpContext context, Func<Task> next)
    {
        // A page about an error comes by twice, the second time with services of its own.
        if (context.Items[Key] is not string device)
        {
            device = DeviceOf(context);
            context.Items[Key] = device;
        }

        context.RequestServices.GetRequiredService<RequestVisit>().Begin(context, device);
        return next();
    }

    private static string DeviceOf(HttpContext context)
    {
        if (Visitor.SignatureOf(context.User) is { } signature)
        {
            return signature;
        }

        if (context.GetEndpoint() is { } endpoint && endpoint.Metadata.GetMetadata<ComponentTypeMetadata>() is null)
        {
            // Files are kept by browsers and proxies, some for a year: they carry nobody's name.
            return "";
        }

        string cookie = context.RequestServices.GetRequiredService<BenchCookies>().Device;
        if (!Guid.TryParseExact(context.Request.Cookies[cookie], "N", out Guid id))
        {
            id = Guid.NewGuid();
            context.Response.Cookies.Append(cookie, id.ToString("N"), new CookieOptions
            {
                HttpOnly = true,
                SameSite = SameSiteMode.Strict,
                IsEssential = true,
                MaxAge = TimeSpan.FromDays(400),
            });
        }

        return id.ToString("N");
    }
}
