using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;

namespace Shimwright.Web.Lan;

/// <summary>The workshop's own network: this machine's private addresses (RFC 1918, RFC 3927, RFC 4193, RFC 4291), and who calls from such a one.</summary>
public static class PrivateNetwork
{
    /// <summary>The ranges: private, link-local and the machine itself, in both kinds of address.</summary>
    public static IReadOnlyList<IPNetwork> Ranges { get; } =
    [
        .. ((string[])["10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8", "fc00::/7", "fe80::/10", "::1/128"]).Select(r => IPNetwork.Parse(r)),
    ];

    /// <summary>Whether an address is one of a private network.</summary>
    /// <param name="address">The address, or null.</param>
    /// <returns>Whether it is.</returns>
    public static bool Has(IPAddress? address)
    {
        if (address is { IsIPv4MappedToIPv6: true })
        {
            address = address.MapToIPv4();
        }

        return address is not null && Ranges.Any(r => r.BaseAddress.AddressFamily == address.AddressFamily && r.Contains(address));
    }

    /// <summary>The addresses at which other devices reach this machine, those of four numbers first.</summary>
    /// <returns>The addresses; none where the machine has no network.</returns>
    public static IReadOnlyList<IPAddress> Addresses()
    {
        try
        {
            return
            [
                .. NetworkInterface.GetAllNetworkInterfaces()
                    .Where(n => n.OperationalStatus == OperationalStatus.Up && n.NetworkInterfaceType != NetworkInterfaceType.Loopback)
                    .SelectMany(n => n.GetIPProperties().UnicastAddresses).Select(a => a.Address)
                    // A link-local address of the newer kind needs the name of an interface that no other device knows.
                    .Where(a => Has(a) && !IPAddress.IsLoopback(a) && !a.IsIPv6LinkLocal)
                    .Distinct().OrderBy(a => a.AddressFamily == AddressFamily.InterNetwork ? 0 : 1).ThenBy(a => a.ToString(), StringComparer.Ordinal),
            ];
        }
        catch (NetworkInformationException)
        {
            return [];
        }
    }
}
