using System.Net;
using Microsoft.AspNetCore.Builder;
using Shimwright.Bench.Devices;
using Shimwright.Testing.Benches;
using Shimwright.Web.Hosting;
using Shimwright.Web.Lan;

namespace Shimwright.Shop.Tests.Door;

/// <summary>A bench behind a proxy on this machine: what the proxy says of the caller is believed, and nobody is at the machine itself.</summary>
public class ProxyTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(null, "bench.example.org", HttpStatusCode.MisdirectedRequest)]
    [InlineData("http", "bench.example.org", HttpStatusCode.MisdirectedRequest)]
    [InlineData("https", "bench.example.org", HttpStatusCode.Unauthorized)]
    [InlineData("https", "evil.example", HttpStatusCode.BadRequest)]
    public async Task Get_ThroughTheProxy_IsAsTheProxySays(string? scheme, string host, HttpStatusCode expected)
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using OpenShop shop = await OpenShop.PrepareAsync(new("", 0, null, ["bench.example.org"], IPAddress.Loopback, false), TimeProvider.System, Cancel);
        await using WebApplication app = BenchServer.Build(new(test.Bench, 0, null, TimeProvider.System, Shop: shop));
        await app.StartAsync(Cancel);
        using HttpClient client = new() { BaseAddress = new Uri($"http://127.0.0.1:{new Uri(app.Urls.First()).Port}") };
        Assert.Equal(expected, await StatusAsync(client, scheme, host, null));
        LetIn program = await test.Bench.Devices.AddProgramAsync("parts shop", DeviceRole.Reader, Cancel);
        Assert.Equal(expected == HttpStatusCode.Unauthorized ? HttpStatusCode.OK : expected, await StatusAsync(client, scheme, host, program.Token));
    }

    private static async Task<HttpStatusCode> StatusAsync(HttpClient client, string? scheme, string host, string? token)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, new Uri("/api/v1/engines", UriKind.Relative));
        request.Headers.Add("X-Forwarded-For", "203.0.113.7");
        request.Headers.Add("X-Forwarded-Host", host);
        if (scheme is not null)
        {
            request.Headers.Add("X-Forwarded-Proto", scheme);
        }

        if (token is not null)
        {
            request.Headers.Authorization = new("Bearer", token);
        }

        using HttpResponseMessage answer = await client.SendAsync(request, Cancel);
        return answer.StatusCode;
    }
}
