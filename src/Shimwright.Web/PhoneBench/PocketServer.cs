using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.HostFiltering;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Shimwright.Web.Requests;

namespace Shimwright.Web.PhoneBench;

/// <summary>Hands out the bench that runs in a browser by itself, on this machine only. It keeps nothing and is asked for nothing else.</summary>
public static class PocketServer
{
    /// <summary>Builds the server; it is not started yet.</summary>
    /// <param name="port">The port on 127.0.0.1. A browser keeps a bench for one address: another port is another bench.</param>
    /// <returns>The application.</returns>
    public static WebApplication Build(int port)
    {
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory });
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Listen(IPAddress.Loopback, port);
        });
        builder.Logging.ClearProviders().AddSimpleConsole(c => c.SingleLine = true).SetMinimumLevel(LogLevel.Warning).AddFilter("Microsoft.Extensions.Hosting.Internal.Host", LogLevel.None);
        builder.Services.AddRouting();
        builder.Services.Configure<HostFilteringOptions>(h => h.AllowedHosts = ["127.0.0.1", "localhost"]);
        WebApplication app = builder.Build();
        app.Use(SecurityHeaders.Add);
        app.UseHostFiltering();
        app.MapPocket();
        return app;
    }
}
