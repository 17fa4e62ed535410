using System.Net;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace Shimwright.Web.Lan;

/// <summary>
/// Hangs up on whoever does not call from a private network, or reaches the machine at an address that is none: the server listens everywhere, since the
/// machine's address may change while it runs. A caller that a router lets in from the internet is not answered.
/// </summary>
internal static class PrivateCallers
{
    /// <param name="listen">Where the server listens.</param>
    /// <param name="only">The only address that may call beside the machine itself, or null for the whole private network.</param>
    public static void Only(ListenOptions listen, IPAddress? only) => listen.Use(next => connection =>
    {
        if (MayCall(AddressOf(connection.LocalEndPoint), AddressOf(connection.RemoteEndPoint), only))
        {
            return next(connection);
        }

        connection.Abort(new ConnectionAbortedException("The caller is not of this network."));
        return Task.CompletedTask;
    });

    /// <summary>Whether a connection is taken.</summary>
    public static bool MayCall(IPAddress? here, IPAddress? caller, IPAddress? only) =>
        only is null ? PrivateNetwork.Has(here) && PrivateNetwork.Has(caller) : caller is not null && (Plain(caller).Equals(Plain(only)) || IPAddress.IsLoopback(caller));

    private static IPAddress? AddressOf(EndPoint? end) => (end as IPEndPoint)?.Address;

    private static IPAddress Plain(IPAddress address) => address.IsIPv4MappedToIPv6 ? address.MapToIPv4() : address;
}
