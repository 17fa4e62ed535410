using System.Net;
using System.Net.Sockets;
using Microsoft.AspNetCore.HostFiltering;
using Microsoft.Extensions.Options;
using Microsoft.Extensions.Primitives;

namespace Shimwright.Web.Lan;

/// <summary>The names and addresses under which the bench is reached now. The router may give the machine another address at any time.</summary>
/// <param name="hosts">Names that were given.</param>
/// <param name="addresses">Asks for the machine's addresses.</param>
/// <param name="machine">The machine's name.</param>
public sealed class LanNames(IReadOnlyList<string> hosts, Func<IReadOnlyList<IPAddress>> addresses, string machine)
    : IConfigureOptions<HostFilteringOptions>, IOptionsChangeTokenSource<HostFilteringOptions>, IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    private CancellationTokenSource _changed = new();
    private volatile IReadOnlyList<IPAddress> _addresses = addresses();

    /// <summary>The addresses at which other devices reach the machine.</summary>
    public IReadOnlyList<IPAddress> Addresses => _addresses;

    /// <summary>All names and addresses, for the certificate.</summary>
    public IReadOnlyList<string> All => [.. Names, .. _addresses.Select(a => a.ToString()), IPAddress.Loopback.ToString(), IPAddress.IPv6Loopback.ToString()];

    /// <summary>The name in links: one that was given, the machine's own where it answers, else its first address.</summary>
    public string Best { get; private set; } = "localhost";

    /// <summary>Where other devices reach the machine, the best first.</summary>
    public IEnumerable<string> Hosts => _addresses.Select(a => a.ToString()).Prepend(Best).Distinct();

    /// <summary>Whether the best name is a number that the router may change.</summary>
    public bool IsBestAnAddress => IPAddress.TryParse(Best, out _);

    string? IOptionsChangeTokenSource<HostFilteringOptions>.Name => Options.DefaultName;

    private string Local => machine + ".local";

    private IEnumerable<string> Names => new[] { "localhost", Local }.Concat(hosts).Where(n => n.Length > 0).Distinct(StringComparer.OrdinalIgnoreCase);

    /// <summary>Looks again.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>Whether the addresses are others than before.</returns>
    public async Task<bool> LookAsync(CancellationToken cancel = default)
    {
        IReadOnlyList<IPAddress> now = addresses();
        bool isOther = !now.SequenceEqual(_addresses);
        _addresses = now;
        Best = hosts.Count > 0 ? hosts[0] : await AnswersAsync(cancel) ? Local : now.Count > 0 ? now[0].ToString() : "localhost";
        if (isOther)
        {
            CancellationTokenSource before = Interlocked.Exchange(ref _changed, new());
            await before.CancelAsync();
            before.Dispose();
        }

        return isOther;
    }

    /// <summary>The address of a page in a browser.</summary>
    /// <param name="host">The name or address.</param>
    /// <param name="port">The port.</param>
    /// <param name="path">The page, from its slash on.</param>
    /// <param name="scheme">How it is reached.</param>
    /// <returns>The address.</returns>
    public static string Link(string host, int port, string path = "", string scheme = "https") =>
        FormattableString.Invariant($"{scheme}://{(IPAddress.TryParse(host, out IPAddress? a) && a.AddressFamily == AddressFamily.InterNetworkV6 ? $"[{host}]" : host)}:{port}{path}");

    /// <inheritdoc/>
    public void Configure(HostFilteringOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        options.AllowedHosts = [.. All.Select(n => IPAddress.TryParse(n, out IPAddress? a) && a.AddressFamily == AddressFamily.InterNetworkV6 ? $"[{n}]" : n)];
    }

    /// <inheritdoc/>
    public IChangeToken GetChangeToken() => new CancellationChangeToken(_changed.Token);

    /// <inheritdoc/>
    public void Dispose() => _changed.Dispose();

    /// <summary>Whether the machine's own name leads to itself: it does where something on it answers for such names.</summary>
    private async Task<bool> AnswersAsync(CancellationToken cancel)
    {
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        patience.CancelAfter(Patience);
        try
        {
            IPAddress[] found = await Dns.GetHostAddressesAsync(Local, patience.Token);
            return found.Any(f => _addresses.Any(a => a.Equals(f)));
        }
        catch (Exception e) when (e is SocketException or OperationCanceledException && !cancel.IsCancellationRequested)
        {
            return false;
        }
    }
}
