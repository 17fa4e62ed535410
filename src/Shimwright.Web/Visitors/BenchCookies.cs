using Microsoft.AspNetCore.Http;
using Shimwright.Bench;
using Shimwright.Storage;

namespace Shimwright.Web.Visitors;

/// <summary>What a bench's cookies are called. A browser knows no ports: two benches on one machine would take each other's.</summary>
internal sealed class BenchCookies(IBench bench)
{
    private readonly string _bench = bench is BenchDatabase database ? database.Id : "memory";

    /// <summary>The one that names the device.</summary>
    public string Device => $"shimwright-device-{_bench}";

    /// <summary>The one against which forms are checked.</summary>
    public string Forms => $"shimwright-forms-{_bench}";

    /// <summary>The one by which a device that was let in is known. By its prefix a browser takes it from this host alone, and only where the connection is encrypted.</summary>
    public string LetIn => $"__Host-shimwright-{_bench}";

    /// <summary>Gives a device its token, or gives it again so that it lasts longer.</summary>
    public void Keep(HttpResponse response, string token) => response.Cookies.Append(LetIn, token, new CookieOptions
    {
        HttpOnly = true,
        Secure = true,
        SameSite = SameSiteMode.Strict,
        IsEssential = true,
        Path = "/",
        MaxAge = Shimwright.Bench.Devices.Device.Kept,
    });
}
