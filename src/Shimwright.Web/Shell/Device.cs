using Microsoft.AspNetCore.Http;

namespace Shimwright.Web.Shell;

/// <summary>Which device a person works on: a random name in a cookie, so that what it sends can be told from what others send.</summary>
internal static class Device
{
    private const string Cookie = "shimwright-device";
    private static readonly object Key = new();

    /// <summary>Gives every new device its name before a page is made.</summary>
    public static Task Name(HttpContext context, Func<Task> next)
    {
        // A page about an error comes by twice.
        if (context.Items.ContainsKey(Key))
        {
            return next();
        }

        if (!Guid.TryParseExact(context.Request.Cookies[Cookie], "N", out Guid id))
        {
            id = Guid.NewGuid();
            context.Response.Cookies.Append(Cookie, id.ToString("N"), new CookieOptions
            {
                HttpOnly = true,
                SameSite = SameSiteMode.Strict,
                IsEssential = true,
                MaxAge = TimeSpan.FromDays(400),
            });
        }

        context.Items[Key] = id.ToString("N");
        return next();
    }

    /// <summary>The device of a request.</summary>
    public static string Of(HttpContext context) => (string)context.Items[Key]!;
}
