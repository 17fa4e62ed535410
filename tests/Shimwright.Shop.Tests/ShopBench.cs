using System.Collections.Concurrent;
using System.Net;
using System.Net.Security;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.Builder;
using Shimwright.Bench.Devices;
using Shimwright.Storage;
using Shimwright.Web.Hosting;
using Shimwright.Web.Lan;

namespace Shimwright.Shop.Tests;

/// <summary>A bench that is open to the devices of a workshop: the real server, over HTTPS, on a port of its own. Whoever calls has to be let in, this machine too.</summary>
internal sealed class ShopBench : IAsyncDisposable
{
    private readonly string _folder;
    private readonly bool _isOwnFolder;
    private readonly OpenShop _shop;
    private readonly ConcurrentDictionary<HttpClient, string> _tokens = new();

    private ShopBench(string folder, bool isOwnFolder, OpenShop shop, WebApplication app, BenchDatabase database)
    {
        (_folder, _isOwnFolder, _shop, App, Database) = (folder, isOwnFolder, shop, app, database);
        Address = new Uri($"https://localhost:{new Uri(app.Urls.First()).Port}");
        Authority = X509CertificateLoader.LoadCertificateFromFile(Path.Combine(folder, "authority.crt"));
    }

    public WebApplication App { get; }

    public BenchDatabase Database { get; }

    public Uri Address { get; }

    public OpenShop Shop => _shop;

    /// <summary>Whether its clients take the certificate under any name.</summary>
    public bool IsAnyName { get; set; }

    public string Folder => _folder;

    private X509Certificate2 Authority { get; }

    /// <summary>Starts one on a database that is prepared.</summary>
    public static async Task<ShopBench> StartAsync(BenchDatabase database, TimeProvider? time = null, bool isLocked = true, string? folder = null, string[]? hosts = null)
    {
        string place = folder ?? Directory.CreateTempSubdirectory("shimwright-shop-").FullName;
        TimeProvider clock = new WithoutAlarms(time ?? TimeProvider.System);
        OpenShop shop = await OpenShop.PrepareAsync(new(place, 0, null, hosts ?? [], null, isLocked), clock, TestContext.Current.CancellationToken);
        WebApplication app = BenchServer.Build(new(database, 0, null, clock, Shop: shop));
        await app.StartAsync(TestContext.Current.CancellationToken);
        return new(place, folder is null, shop, app, database);
    }

    /// <summary>A browser that trusts the bench's authority alone and is not let in.</summary>
    /// <param name="cookies">What it has, or null for nothing.</param>
    /// <param name="from">The address that it calls from, or null.</param>
    public HttpClient NewClient(CookieContainer? cookies = null, IPAddress? from = null)
    {
        SocketsHttpHandler handler = new() { AllowAutoRedirect = false, UseCookies = true, CookieContainer = cookies ?? new() };
        handler.SslOptions.RemoteCertificateValidationCallback = (_, certificate, _, errors) => Trusts(certificate as X509Certificate2, errors);
        if (from is not null)
        {
            handler.ConnectCallback = async (context, cancel) =>
            {
                Socket socket = new(from.AddressFamily, SocketType.Stream, ProtocolType.Tcp);
                socket.Bind(new IPEndPoint(from, 0));
                await socket.ConnectAsync(IPAddress.Loopback, context.DnsEndPoint.Port, cancel);
                return new NetworkStream(socket, ownsSocket: true);
            };
        }

        return new(handler) { BaseAddress = Address };
    }

    /// <summary>A browser that was let in.</summary>
    public async Task<HttpClient> LetInAsync(DeviceRole role, string person = "Ana Quill", string name = "phone at lift 2")
    {
        OneTimeCode code = await Database.Devices.MakeCodeAsync(role, TestContext.Current.CancellationToken);
        LetIn entry = await Database.Devices.LetInAsync(code.Text, name, person, TestContext.Current.CancellationToken);
        CookieContainer cookies = new();
        cookies.Add(Address, new Cookie($"__Host-shimwright-{Database.Id}", entry.Token) { Secure = true });
        HttpClient client = NewClient(cookies);
        _tokens[client] = entry.Token!;
        client.DefaultRequestHeaders.Add("X-Shimwright-Device", name);
        return client;
    }

    public string TokenOf(HttpClient client) => _tokens[client];

    public async ValueTask DisposeAsync()
    {
        await App.DisposeAsync();
        await _shop.DisposeAsync();
        Authority.Dispose();
        if (_isOwnFolder)
        {
            Directory.Delete(_folder, recursive: true);
        }
    }

    /// <summary>A clock by which nothing wakes up: what a server does by itself, such as daily copies, does not happen in a test.</summary>
    private sealed class WithoutAlarms(TimeProvider time) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => time.GetUtcNow();

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
            base.CreateTimer(callback, state, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    private bool Trusts(X509Certificate2? certificate, SslPolicyErrors errors)
    {
        using X509Chain chain = new();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.Add(Authority);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        return (IsAnyName || (errors & SslPolicyErrors.RemoteCertificateNameMismatch) == 0) && certificate is not null && chain.Build(certificate);
    }
}
