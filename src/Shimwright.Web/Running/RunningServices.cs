using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace Shimwright.Web.Running;

/// <summary>What the server needs for what it is run under; nothing of it where it runs in a terminal.</summary>
internal static class RunningServices
{
    public static void AddRunning(this IServiceCollection services, ServerRunning running)
    {
        // Each looks whether systemd, or Windows, has started the program as a service, and does nothing where not.
        if (OperatingSystem.IsLinux())
        {
            services.AddSystemd();
        }
        else if (OperatingSystem.IsWindows())
        {
            services.AddWindowsService(service => service.ServiceName = "Shimwright");
        }

        if (running.InContainer)
        {
            // Says that keys of forms may go with the container; whether they lie in a volume it cannot see.
            services.AddLogging(log => log.AddFilter("Microsoft.AspNetCore.DataProtection.Repositories.FileSystemXmlRepository", LogLevel.Error));
        }

        if (running.Telemetry is { } collector)
        {
            Telemetry.Add(services, collector);
        }
    }
}
