using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Shimwright.Web.Tests.Requests;

/// <summary>What an answer says to the browser, word for word: one word less, and a page elsewhere can reach into the bench.</summary>
public class HeadersAndCookiesTests
{
    [Theory]
    [InlineData("default-src", "'none'")]
    [InlineData("script-src", "'self'")]
    [InlineData("style-src", "'self'")]
    [InlineData("img-src", "'self'")]
    [InlineData("connect-src", "'self'")]
    [InlineData("form-action", "'self'")]
    [InlineData("frame-ancestors", "'none'")]
    [InlineData("base-uri", "'self'")]
    [InlineData("object-src", "'none'")]
    public async Task Policy_OfAPage_AllowsItsOwnAndNothingElse(string directive, string allowed)
    {
        using HttpResponseMessage page = await GetAsync("/");
        Dictionary<string, string> policy = Assert.Single(page.Headers.GetValues("Content-Security-Policy"))
            .Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
            .Select(d => d.Split(' ', 2)).ToDictionary(d => d[0], d => d[1], StringComparer.Ordinal);
        Assert.Equal(allowed, policy[directive]);
    }

    [Theory]
    [InlineData("Referrer-Policy", "same-origin")]
    [InlineData("Cross-Origin-Opener-Policy", "same-origin")]
    [InlineData("Cross-Origin-Resource-Policy", "same-origin")]
    [InlineData("Permissions-Policy", "camera=(), microphone=(), geolocation=(), screen-wake-lock=(self)")]
    public async Task Header_OfAPage_KeepsItToItself(string name, string value)
    {
        using HttpResponseMessage page = await GetAsync("/");
        Assert.Equal(value, Assert.Single(page.Headers.GetValues(name)));
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/nowhere")]
    [InlineData("/drawer/drawer.csv")]
    [InlineData("/settings/copies/bench.zip")]
    [InlineData("/api/v1/jobs")]
    public async Task CacheControl_OfWhatBelongsToTheBench_KeepsNothing(string path)
    {
        using HttpResponseMessage answer = await GetAsync(path);
        Assert.True(answer.Headers.CacheControl?.NoStore);
    }

    [Fact]
    public async Task CacheControl_OfTheProgramsOwnFiles_IsTheirOwn()
    {
        using HttpResponseMessage answer = await GetAsync("/shim.svg");
        Assert.NotEqual(true, answer.Headers.CacheControl?.NoStore);
    }

    /// <summary>Every refused form was blamed on a page from before the start.</summary>
    [Fact]
    public async Task Post_MoreFieldsThanAnyForm_IsNotBlamedOnAnOldPage()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        using FormUrlEncodedContent many = new(Enumerable.Range(0, 1_100).Select(n => new KeyValuePair<string, string>($"f{n}", "1")));
        using HttpResponseMessage answer = await client.PostAsync(new Uri("/settings", UriKind.Relative), many, TestContext.Current.CancellationToken);
        string text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("more fields than any form", text, StringComparison.Ordinal);
        Assert.DoesNotContain("before the program was started", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_ChunkThatClaimsMoreThanThereIs_IsTheSendersFault()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        string answer = await SayAsync(bench, "POST /settings HTTP/1.1\r\nHost: localhost\r\nTransfer-Encoding: chunked\r\nContent-Type: application/x-www-form-urlencoded\r\nConnection: close\r\n\r\nFFFFFFFFFFFFFFFFF\r\nx\r\n0\r\n\r\n");
        Assert.StartsWith("HTTP/1.1 400 ", answer, StringComparison.Ordinal);
        answer = await SayAsync(bench, "POST /api/v1/plan HTTP/1.1\r\nHost: localhost\r\nTransfer-Encoding: chunked\r\nContent-Type: application/json\r\nX-Shimwright-Device: t\r\nConnection: close\r\n\r\nFFFFFFFFFFFFFFFFF\r\nx\r\n0\r\n\r\n");
        Assert.StartsWith("HTTP/1.1 400 ", answer, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("shimwright-device-")]
    [InlineData("shimwright-forms-")]
    public async Task Cookie_OfTheBench_IsNotForScriptsNorForOtherSites(string begins)
    {
        using HttpResponseMessage page = await GetAsync("/settings");
        string[] parts = Assert.Single(page.Headers.GetValues("Set-Cookie"), c => c.StartsWith(begins, StringComparison.Ordinal)).Split("; ");
        Assert.Contains("httponly", parts, StringComparer.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", parts, StringComparer.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Device_ThatHasAName_KeepsIt()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        using HttpResponseMessage first = await client.GetAsync(new Uri("/", UriKind.Relative), TestContext.Current.CancellationToken);
        using HttpResponseMessage second = await client.GetAsync(new Uri("/", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.True(NamesADevice(first));
        Assert.False(NamesADevice(second));

        static bool NamesADevice(HttpResponseMessage answer) =>
            answer.Headers.TryGetValues("Set-Cookie", out IEnumerable<string>? cookies) && cookies.Any(c => c.StartsWith("shimwright-device-", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("GET / HTTP/1.1\r\nHost:\r\nConnection: close\r\n\r\n")]
    [InlineData("GET / HTTP/1.0\r\n\r\n")]
    public async Task Get_WithoutAHost_IsRefused(string request)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        Assert.Contains(" 400 ", (await SayAsync(bench, request)).Split('\n')[0], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Server_OnThisMachine_IsHeardOnThisMachineOnly()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        Assert.Equal(IPAddress.Loopback, IPAddress.Parse(bench.Address.Host));
    }

    private static async Task<string> SayAsync(RunningBench bench, string request)
    {
        using var connection = new TcpClient();
        await connection.ConnectAsync(IPAddress.Loopback, bench.Address.Port, TestContext.Current.CancellationToken);
        await using NetworkStream stream = connection.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes(request), TestContext.Current.CancellationToken);
        using var reader = new StreamReader(stream, Encoding.ASCII);
        return await reader.ReadToEndAsync(TestContext.Current.CancellationToken);
    }

    private static async Task<HttpResponseMessage> GetAsync(string path)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        return await client.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
    }
}
