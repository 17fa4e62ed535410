using System.Net;

namespace Shimwright.Web.Running;

/// <summary>What a server is run under, where that is not a terminal on this machine.</summary>
/// <param name="InContainer">Whether it listens on every address of the container it runs in; whoever publishes its port says who reaches it.</param>
/// <param name="Telemetry">Where metrics and traces are sent; null for nowhere.</param>
public sealed record ServerRunning(bool InContainer = false, Uri? Telemetry = null)
{
    /// <summary>A terminal on this machine.</summary>
    public static ServerRunning Usual { get; } = new();

    /// <summary>The address it listens on.</summary>
    public IPAddress Address => InContainer ? IPAddress.Any : IPAddress.Loopback;
}
