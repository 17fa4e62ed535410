using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.HostFiltering;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;

namespace Shimwright.Web.Lan;

/// <summary>A bench that is open to the devices of a workshop: its names, its certificate, and the server by which phones get to know it.</summary>
public sealed class OpenShop : IAsyncDisposable
{
    private readonly IPAddress? _proxy;
    private readonly Authority? _authority;
    private readonly int _introductionPort;
    private WebApplication? _introduction;

    private OpenShop(LanOptions options, LanNames names, ServerCertificate? certificate, Authority? authority)
    {
        (Names, Certificate, _authority, _proxy, _introductionPort) = (names, certificate, authority, options.Proxy, options.IntroductionPort);
        // A proxy on this machine calls from it: whoever comes through it would be taken for the machine itself.
        IsLocked = options.IsLocked || options.Proxy is not null;
    }

    /// <summary>The names and addresses under which the bench is reached.</summary>
    public LanNames Names { get; }

    /// <summary>The certificate; null behind a proxy, which has one of its own.</summary>
    public ServerCertificate? Certificate { get; }

    /// <summary>Whether the machine itself has to be let in too.</summary>
    public bool IsLocked { get; }

    /// <summary>What the authority's certificate is told by; null where the bench has none.</summary>
    public string? Fingerprint => _authority?.Fingerprint;

    /// <summary>The port on which the authority's certificate is given away, once that server runs.</summary>
    public int? IntroductionPort { get; private set; }

    /// <summary>Gets all of it ready; nothing listens yet.</summary>
    /// <param name="options">How it is opened.</param>
    /// <param name="time">The clock.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The shop.</returns>
    /// <exception cref="LanException">It cannot be opened.</exception>
    public static async Task<OpenShop> PrepareAsync(LanOptions options, TimeProvider time, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(time);
        string machine = NameOf(Dns.GetHostName());
        LanNames names = new(options.Hosts, PrivateNetwork.Addresses, machine);
        await names.LookAsync(cancel);
        if (options.Proxy is not null)
        {
            return new(options, names, null, null);
        }

        if (options.CertificateFile is { } own)
        {
            return new(options, names, ServerCertificate.Own(own), null);
        }

        var authority = Authority.In(options.Folder, options.Hosts, time.GetUtcNow());
        if (options.Hosts.FirstOrDefault(h => !authority.MayVouchFor(h)) is { } foreign)
        {
            authority.Dispose();
            throw new LanException($"--host: found \"{foreign}\", for which the bench's authority may not vouch; give your own certificate with --certificate, or remove {options.Folder}, start again, and trust the new authority on each phone");
        }

        return new(options, names, ServerCertificate.By(authority, options.Folder, names.All, time.GetUtcNow()), authority);
    }

    /// <summary>A machine's own name as certificates write it; one that cannot be written so is left out.</summary>
    private static string NameOf(string machine)
    {
        try
        {
            return new System.Globalization.IdnMapping().GetAscii(machine.Split('.')[0]);
        }
        catch (ArgumentException)
        {
            return "localhost";
        }
    }

    /// <summary>Starts the server by which phones get to know the bench.</summary>
    /// <param name="port">The bench's own port.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>When it runs.</returns>
    public async Task IntroduceAsync(int port, CancellationToken cancel)
    {
        if (_authority is not null)
        {
            _introduction = Introduction.Build(_introductionPort, _authority, () => LanNames.Link(Names.Best, port));
            await _introduction.StartAsync(cancel);
            IntroductionPort = new Uri(_introduction.Urls.First()).Port;
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (_introduction is not null)
        {
            await _introduction.DisposeAsync();
        }

        Certificate?.Dispose();
        Names.Dispose();
    }

    internal void Listen(KestrelServerOptions kestrel, int port) => kestrel.ListenAnyIP(port, listen =>
    {
        PrivateCallers.Only(listen, _proxy);
        if (Certificate is { } certificate)
        {
            listen.UseHttps(https => https.ServerCertificateSelector = (_, _) => certificate.Current);
        }
    });

    internal void AddTo(IServiceCollection services)
    {
        services.AddSingleton(this);
        services.AddSingleton(Names);
        services.AddSingleton<IConfigureOptions<HostFilteringOptions>>(Names);
        services.AddSingleton<IOptionsChangeTokenSource<HostFilteringOptions>>(Names);
        if (Certificate is not null)
        {
            services.AddSingleton(Certificate);
            services.AddHostedService<LanKeeper>();
        }
    }

    /// <summary>What a proxy says of who called it is believed, where it is that proxy.</summary>
    internal void UseProxy(WebApplication app)
    {
        if (_proxy is null)
        {
            return;
        }

        ForwardedHeadersOptions forwarded = new()
        {
            ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost,
            ForwardLimit = 1,
        };
        forwarded.KnownProxies.Clear();
        forwarded.KnownIPNetworks.Clear();
        forwarded.KnownProxies.Add(_proxy);
        app.UseForwardedHeaders(forwarded);
        app.Use(async (context, next) =>
        {
            // Without encryption up to the proxy a device's token would be read on the way; whoever calls without the proxy sees the health only.
            if (context.Request.IsHttps || context.Request.Path.Value is "/healthz" or "/readyz")
            {
                await next();
                return;
            }

            context.Response.StatusCode = Microsoft.AspNetCore.Http.StatusCodes.Status421MisdirectedRequest;
        });
    }
}
