namespace Shimwright.Pages.Shell;

/// <summary>Who reaches an address.</summary>
public enum ReachKind
{
    /// <summary>Whoever is on the network, now and later.</summary>
    Network,

    /// <summary>Whoever is on the network, until the router gives the machine another number.</summary>
    Changing,

    /// <summary>This machine only.</summary>
    ThisMachine,

    /// <summary>A device whose browser has the bench in it.</summary>
    ThisDevice,
}

/// <summary>Where the pages are reached, for what is printed: a sticker outlives the visit.</summary>
/// <param name="Start">What stands before a page's path.</param>
/// <param name="Kind">Who reaches it.</param>
public sealed record BenchReach(string Start, ReachKind Kind)
{
    /// <summary>The address by which the pages were asked for.</summary>
    /// <param name="asked">The address.</param>
    /// <returns>Where they are reached.</returns>
    public static BenchReach Asked(Uri asked)
    {
        ArgumentNullException.ThrowIfNull(asked);
        return new(
            asked.GetLeftPart(UriPartial.Authority),
            asked.IsLoopback ? ReachKind.ThisMachine : asked.HostNameType is UriHostNameType.IPv4 or UriHostNameType.IPv6 ? ReachKind.Changing : ReachKind.Network);
    }
}
