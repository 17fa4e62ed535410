using System.Net;
using System.Text;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Shimwright.Bench.Devices;
using Shimwright.Testing.Benches;

namespace Shimwright.Shop.Tests.Door;

/// <summary>Every address of the server, and who may look at it or send something there. A new address without a rule fails here.</summary>
public class RoutesTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>The table is read by people: whoever changes it says who may what.</summary>
    [Fact]
    public async Task Routes_OfTheServer_AreThoseOfTheTable()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench);
        string table = string.Concat(RoutesOf(shop).Select(r => $"{r.Rule,-7} {r.Methods,-9} {r.Path}\n").Order(StringComparer.Ordinal));
        string approved = Path.Combine(AppContext.BaseDirectory, "Door", "Routes.approved.txt");
        if (!File.Exists(approved) || await File.ReadAllTextAsync(approved, Cancel) != table)
        {
            string received = Path.Combine(AppContext.BaseDirectory, "Routes.received.txt");
            await File.WriteAllTextAsync(received, table, Cancel);
            Assert.Equal(File.Exists(approved) ? await File.ReadAllTextAsync(approved, Cancel) : "", table);
        }
    }

    [Theory]
    [InlineData(null)]
    [InlineData("revoked")]
    [InlineData("made up")]
    public async Task Any_WithoutBeingLetIn_IsRefusedEverywhere(string? who)
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench);
        using HttpClient client = await ClientAsync(shop, who);
        StringBuilder wrong = new();
        foreach ((string rule, string method, string path) in Requests(shop).Where(r => r.Rule != "open"))
        {
            HttpStatusCode status = await SendAsync(client, method, path);
            if (status != HttpStatusCode.Unauthorized)
            {
                wrong.AppendLine(System.Globalization.CultureInfo.InvariantCulture, $"{method} {path}: {status}");
            }
        }

        Assert.Equal("", wrong.ToString());
        Assert.Equal(HttpStatusCode.Unauthorized, await SendAsync(client, "GET", "/no/such/address"));
        Assert.Equal(HttpStatusCode.OK, await SendAsync(client, "GET", "/enter"));
        Assert.Equal(HttpStatusCode.OK, await SendAsync(client, "GET", "/healthz"));
    }

    [Theory]
    [InlineData(DeviceRole.Reader)]
    [InlineData(DeviceRole.Mechanic)]
    [InlineData(DeviceRole.Owner)]
    public async Task Any_WithARole_MayWhatTheRoleMayAndNoMore(DeviceRole role)
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench);
        using HttpClient client = await shop.LetInAsync(role);
        StringBuilder wrong = new();
        foreach ((string rule, string method, string path) in Requests(shop).Where(r => !r.Path.EndsWith("/news", StringComparison.Ordinal)))
        {
            bool looks = method is "GET";
            DeviceRole needed = (rule, looks) switch
            {
                ("own", _) or ("settle", false) => DeviceRole.Owner,
                ("work", false) or ("take", _) => DeviceRole.Mechanic,
                _ => DeviceRole.Reader,
            };
            HttpStatusCode status = await SendAsync(client, method, path);
            if ((status == HttpStatusCode.Forbidden) != (role < needed) || status == HttpStatusCode.Unauthorized)
            {
                wrong.AppendLine(System.Globalization.CultureInfo.InvariantCulture, $"{method} {path} ({rule}): {status}");
            }
        }

        Assert.Equal("", wrong.ToString());
        Assert.Equal(HttpStatusCode.NotFound, await SendAsync(client, "GET", "/no/such/address"));
    }

    /// <summary>A page of another site leads to the bench with a name of its own, or has the browser send something to it.</summary>
    [Fact]
    public async Task Any_UnderAnotherNameOrFromAnotherSite_IsRefused()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench);
        shop.IsAnyName = true;
        using HttpClient client = await shop.LetInAsync(DeviceRole.Owner);
        foreach ((_, string method, string path) in Requests(shop).Where(r => !r.Path.EndsWith("/news", StringComparison.Ordinal)))
        {
            using HttpRequestMessage rebound = Request(method, path);
            rebound.Headers.Host = "evil.example";
            using HttpResponseMessage answer = await client.SendAsync(rebound, Cancel);
            Assert.True(answer.StatusCode == HttpStatusCode.BadRequest, $"{method} {path}: {answer.StatusCode}");
        }

        // What a browser sends for another site has its cookie not (SameSite=Strict) and no header of the bench; a form has no token.
        client.DefaultRequestHeaders.Remove("X-Shimwright-Device");
        foreach ((string rule, string method, string path) in Requests(shop).Where(r => r.Method != "GET" && r.Rule is "work" or "take" or "settle" or "own"))
        {
            using HttpRequestMessage forged = Request(method, path);
            forged.Headers.Add("Origin", "https://evil.example");
            using HttpResponseMessage answer = await client.SendAsync(forged, Cancel);
            Assert.False(answer.IsSuccessStatusCode && method != "GET", $"{method} {path} ({rule}): {answer.StatusCode}");
        }
    }

    private static async Task<HttpClient> ClientAsync(ShopBench shop, string? who)
    {
        switch (who)
        {
            case "revoked":
                HttpClient revoked = await shop.LetInAsync(DeviceRole.Owner);
                await shop.Database.Devices.RevokeAsync((await shop.Database.Devices.ListAsync(Cancel))[0].Id, Cancel);
                return revoked;
            case "made up":
                CookieContainer cookies = new();
                cookies.Add(shop.Address, new Cookie($"__Host-shimwright-{shop.Database.Id}", new string('a', 64)) { Secure = true });
                return shop.NewClient(cookies);
            default:
                return shop.NewClient();
        }
    }

    private static async Task<HttpStatusCode> SendAsync(HttpClient client, string method, string path)
    {
        using HttpRequestMessage request = Request(method, path);
        using HttpResponseMessage answer = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, Cancel);
        return answer.StatusCode;
    }

    private static HttpRequestMessage Request(string method, string path)
    {
        HttpRequestMessage request = new(new HttpMethod(method), new Uri(path, UriKind.Relative));
        if (method != "GET")
        {
            request.Content = path.StartsWith("/api", StringComparison.Ordinal) ? new StringContent("{}", Encoding.UTF8, "application/json") : new FormUrlEncodedContent([new("_handler", "none")]);
        }

        return request;
    }

    /// <summary>One request for each method of each address; what is asked for need not be there.</summary>
    private static IEnumerable<(string Rule, string Method, string Path)> Requests(ShopBench shop) =>
        from route in RoutesOf(shop)
        where !route.Path.Contains("_framework", StringComparison.Ordinal)
        from method in route.Methods.Split(' ')
        select (route.Rule, method, route.Path.Replace("{id:guid}", "0f8fad5b-d9cb-469f-a165-70867728950e", StringComparison.OrdinalIgnoreCase)
            .Replace("{photo:guid}", "0f8fad5b-d9cb-469f-a165-70867728950f", StringComparison.OrdinalIgnoreCase).Replace("{documentName}.json", "v1.json", StringComparison.Ordinal));

    private static IEnumerable<(string Rule, string Methods, string Path)> RoutesOf(ShopBench shop) =>
        from endpoint in shop.App.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
        let path = "/" + endpoint.RoutePattern.RawText!.TrimStart('/')
        // What the pages are made with has a name that changes with what is in it; where the program was only built, what is not there yet is for owners.
        where path != "/{**path:file}"
        where !path.Contains('.', StringComparison.Ordinal) || path.StartsWith("/openapi", StringComparison.Ordinal) || endpoint.Metadata.GetMetadata<IAuthorizeData>() is not null
        let rule = endpoint.Metadata.GetMetadata<IAllowAnonymous>() is not null ? "open" : endpoint.Metadata.GetOrderedMetadata<IAuthorizeData>().Select(a => a.Policy).LastOrDefault() ?? "NONE"
        let methods = endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Where(m => m != "HEAD").Order(StringComparer.Ordinal) ?? Enumerable.Empty<string>()
        select (rule, string.Join(' ', methods.DefaultIfEmpty("GET")), path);
}
