using System.Net;
using System.Text;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Web.Tests.Api;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Requests;

public class SecurityTests
{
    private const string Evil = "<script>alert(1)</script><img src=x onerror=alert(2)>";

    public static TheoryData<string> Pages => ["/", "/engines", "/engines/new", "/engines/{engine}", "/engines/{engine}/card", "/engines/{engine}/another", "/settings", "/feel", "/jobs/{job}/measure", "/jobs/{job}/depth", "/nowhere"];

    [Theory]
    [InlineData("evil.example")]
    [InlineData("127.0.0.1.evil.example")]
    [InlineData("bench.local:80")]
    public async Task Get_UnderAnotherHostsName_IsRefused(string host)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        using var request = new HttpRequestMessage(HttpMethod.Get, "/");
        request.Headers.Host = host;
        using HttpResponseMessage answer = await client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
    }

    [Theory]
    [InlineData("localhost")]
    [InlineData("127.0.0.1")]
    public async Task Get_UnderThisMachinesName_IsAnswered(string host)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        using var request = new HttpRequestMessage(HttpMethod.Get, "/");
        request.Headers.Host = $"{host}:{bench.Address.Port}";
        using HttpResponseMessage answer = await client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [Theory]
    [InlineData("__RequestVerificationToken", null)]
    [InlineData("__RequestVerificationToken", "made up")]
    public async Task Post_AFormWithoutItsToken_SavesNothingAndSaysSo(string field, string? token)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid engine = await DemoEngine.AddAsync(bench);
        FetchedPage page = await (await FormPost.OnAsync(client, $"/engines/{engine}", "start")).With("Start.Clock", "1").With(field, token).SubmitAsync();
        Assert.Equal(HttpStatusCode.BadRequest, page.Status);
        Assert.Contains("The form was refused", page.Text, StringComparison.Ordinal);
        Assert.Equal(0, await bench.Database.Jobs.CountOpenAsync(TestContext.Current.CancellationToken));
    }

    /// <summary>What was saved the first time is not denied the second time, though the page has no such form any more.</summary>
    [Fact]
    public async Task Post_AFormThatIsDoneAlready_IsNotSaidToHaveSavedNothing()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await DemoJob.StartAsync(bench, "02-worn-four.json", DemoJob.Nothing);
        FormPost crank = await FormPost.OnAsync(job.Client, job.Address("measure"), "crank");
        Assert.Equal(HttpStatusCode.OK, (await crank.SubmitAsync()).Status);
        FetchedPage again = await crank.SubmitAsync();
        Assert.Equal(HttpStatusCode.BadRequest, again.Status);
        Assert.Contains("That form is no longer there", again.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Nothing was saved", again.Text, StringComparison.Ordinal);
        Assert.IsType<CrankTurned>(Assert.Single((await job.StoredAsync()).Sheet.Entries).Fact);
    }

    [Fact]
    public async Task Post_AFormFromAnotherBrowser_SavesNothing()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient mine = bench.NewClient();
        using HttpClient other = bench.NewClient();
        Guid engine = await DemoEngine.AddAsync(bench);
        FormPost form = (await FormPost.OnAsync(mine, $"/engines/{engine}", "start")).With("Start.Clock", "1");
        using var content = new FormUrlEncodedContent(form.Fields);
        using HttpResponseMessage answer = await other.PostAsync(new Uri($"/engines/{engine}", UriKind.Relative), content, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal(0, await bench.Database.Jobs.CountOpenAsync(TestContext.Current.CancellationToken));
    }

    [Theory]
    [InlineData("GET", "/", 200)]
    [InlineData("GET", "/app.css", 200)]
    [InlineData("GET", "/nowhere", 404)]
    [InlineData("GET", "/api/v1/engines", 200)]
    [InlineData("GET", "/api/v1/nowhere", 404)]
    [InlineData("GET", "/openapi/v1.json", 200)]
    [InlineData("GET", "/healthz", 200)]
    [InlineData("GET", "/readyz", 200)]
    [InlineData("POST", "/settings", 400)]
    [InlineData("DELETE", "/settings", 405)]
    public async Task Answer_OfAnyKind_CarriesThePolicy(string method, string path, int status)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        using var request = new HttpRequestMessage(new HttpMethod(method), path);
        using HttpResponseMessage answer = await client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(status, (int)answer.StatusCode);
        string policy = Assert.Single(answer.Headers.GetValues("Content-Security-Policy"));
        Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        Assert.False(answer.Headers.Contains("Access-Control-Allow-Origin"));
        Assert.False(answer.Headers.Contains("Server"));
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_OfAnyRoom_HasNoInlineScriptOrStyleAndCallsNoOtherMachine(string path)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (Guid engine, Guid job) = await DemoEngine.AddWithJobAsync(bench);
        FetchedPage page = await FetchedPage.GetAsync(
            client, path.Replace("{engine}", engine.ToString(), StringComparison.Ordinal).Replace("{job}", job.ToString(), StringComparison.Ordinal));
        Assert.All(page.Document.QuerySelectorAll("script"), s => Assert.True(s.HasAttribute("src") && s.TextContent.Length == 0, s.OuterHtml));
        Assert.Empty(page.Document.QuerySelectorAll("style, [style]"));
        Assert.DoesNotContain(page.Document.All, e => e.Attributes.Any(a => a.Name.StartsWith("on", StringComparison.OrdinalIgnoreCase)));
        Assert.DoesNotContain(
            page.Document.QuerySelectorAll("[src], [href], form[action]").SelectMany(e => new[] { e.GetAttribute("src"), e.GetAttribute("href"), e.GetAttribute("action") }).OfType<string>(),
            a => a.Contains("://", StringComparison.Ordinal) || a.StartsWith("//", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("/../Shimwright.Web.dll")]
    [InlineData("/%2e%2e/Shimwright.Web.dll")]
    [InlineData("/..%2f..%2fetc/passwd")]
    [InlineData("/app.css/../../bench.db")]
    [InlineData("/%5c..%5c..%5cetc%5cpasswd")]
    [InlineData("/appsettings.json")]
    [InlineData("/Shimwright.Web.runtimeconfig.json")]
    public async Task Get_AFileThatIsNotServed_IsNotThere(string path)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        string status = await RawStatusAsync(bench, $"GET {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n");
        Assert.True(status is "404" or "400", status);
    }

    [Theory]
    [InlineData("/settings", (1 << 20) + 1)]
    [InlineData("/api/v1/engines", (1 << 20) + 1)]
    [InlineData("/api/v1/plan", (32 << 20) + 1)]
    [InlineData("/api/v1/jobs/file", (32 << 20) + 1)]
    public async Task Post_ABodyThatIsTooLarge_IsRefusedBeforeItIsRead(string path, int bytes)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        Assert.Equal("413", await RawStatusAsync(
            bench, $"POST {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Shimwright-Device: t\r\nContent-Type: application/json\r\nContent-Length: {bytes}\r\nConnection: close\r\n\r\n"));
    }

    [Fact]
    public async Task Post_AJobFileOfMoreThanAMegabyte_IsTaken()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        string file = Encoding.UTF8.GetString(DemoEngine.File()) + new string(' ', 2 << 20);
        (await new ApiClient(client).PostAsync("/api/v1/estimate", file)).Is(HttpStatusCode.OK);
    }

    [Fact]
    public async Task Post_ABodyWithoutALengthThatGrowsTooLarge_IsCutOff()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        using var content = new StreamContent(new MemoryStream(new byte[(1 << 20) + 4096]));
        content.Headers.ContentType = new("application/json");
        content.Headers.ContentLength = null;
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/engines") { Content = content };
        request.Headers.TransferEncodingChunked = true;
        request.Headers.Add("X-Shimwright-Device", "t");
        using HttpResponseMessage answer = await client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/engines")]
    [InlineData("/engines/{engine}")]
    [InlineData("/engines/{engine}/card")]
    [InlineData("/jobs/{job}/measure")]
    public async Task Page_WithANameOfMarkup_ShowsItAsText(string path)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        string file = Encoding.UTF8.GetString(DemoEngine.File());
        var json = System.Text.Json.Nodes.JsonNode.Parse(file)!;
        json["engine"]!["name"] = Evil;
        ApiAnswer started = (await new ApiClient(client).PostAsync($"/api/v1/jobs/file?action={Guid.NewGuid()}", json)).Is(HttpStatusCode.Created);
        EngineSummary engine = Assert.Single(await bench.Database.Engines.ListAsync("", 0, 2, TestContext.Current.CancellationToken));
        string job = started.Location!.ToString().Split('/')[^1];
        FetchedPage page = await FetchedPage.GetAsync(
            client, path.Replace("{engine}", engine.Id.ToString(), StringComparison.Ordinal).Replace("{job}", job, StringComparison.Ordinal));
        Assert.Empty(page.Document.QuerySelectorAll("img[onerror]"));
        Assert.DoesNotContain(page.Document.QuerySelectorAll("script"), s => s.TextContent.Contains("alert", StringComparison.Ordinal));
        Assert.Contains(Evil, page.Text + string.Concat(page.Document.QuerySelectorAll("input").Select(i => i.GetAttribute("value"))), StringComparison.Ordinal);
    }

    /// <summary>Sends a request as it stands, which a client would tidy up first, and returns the status.</summary>
    private static async Task<string> RawStatusAsync(RunningBench bench, string request)
    {
        using var connection = new System.Net.Sockets.TcpClient();
        await connection.ConnectAsync(IPAddress.Loopback, bench.Address.Port, TestContext.Current.CancellationToken);
        await using System.Net.Sockets.NetworkStream stream = connection.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes(request), TestContext.Current.CancellationToken);
        using var reader = new StreamReader(stream, Encoding.ASCII);
        string line = await reader.ReadLineAsync(TestContext.Current.CancellationToken) ?? "";
        return line.Split(' ') is [_, var status, ..] ? status : line;
    }
}
