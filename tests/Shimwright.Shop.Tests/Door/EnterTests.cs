using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using AngleSharp.Html.Parser;
using Shimwright.Bench.Devices;
using Shimwright.Testing.Benches;
using Shimwright.Testing.Forms;

namespace Shimwright.Shop.Tests.Door;

public class EnterTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Post_TheCodeOfAnOwner_LetsTheDeviceInUnderItsName()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench);
        using HttpClient owner = await shop.LetInAsync(DeviceRole.Owner, "Bo Tarn", "laptop");
        string code = await CodeAsync(owner);
        CookieContainer cookies = new();
        using HttpClient phone = shop.NewClient(cookies);
        using HttpResponseMessage entry = await EnterAsync(phone, $"/enter?code={code}", ("Enter.Person", "Ana Quill"), ("Enter.Name", "phone at lift 2"));
        Assert.Equal(HttpStatusCode.Redirect, entry.StatusCode);
        string cookie = Assert.Single(entry.Headers.GetValues("Set-Cookie"), c => c.StartsWith("__Host-", StringComparison.Ordinal)).ToLowerInvariant();
        Assert.All(new[] { "httponly", "secure", "samesite=strict", "path=/", "max-age=15552000" }, part => Assert.Contains(part, cookie, StringComparison.Ordinal));
        Assert.DoesNotContain("domain=", cookie, StringComparison.Ordinal);
        Device device = Assert.Single(await test.Bench.Devices.ListAsync(Cancel), d => d.Name != "laptop");
        Assert.Equal(("Ana Quill", "phone at lift 2", DeviceRole.Mechanic, false), (device.Person, device.Name, device.Role, device.IsProgram));
        string devices = await owner.GetStringAsync(new Uri("/settings/devices", UriKind.Relative), Cancel);
        Assert.Contains("Ana Quill, phone at lift 2", devices, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_AWrongCode_IsNotToldFromOneThatWasUsedOrHasEnded()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench, test.Time);
        OneTimeCode used = await test.Bench.Devices.MakeCodeAsync(DeviceRole.Mechanic, Cancel);
        await test.Bench.Devices.LetInAsync(used.Text, "phone", "Ana", Cancel);
        OneTimeCode ended = await test.Bench.Devices.MakeCodeAsync(DeviceRole.Mechanic, Cancel);
        test.Time.Pass(TimeSpan.FromMinutes(11));
        List<string> answers = [];
        foreach (string code in new[] { used.Text, ended.Text, "AAAAAAAA", "" })
        {
            using HttpClient phone = shop.NewClient();
            using HttpResponseMessage answer = await EnterAsync(phone, "/enter", ("Enter.Code", code), ("Enter.Person", "Ana"), ("Enter.Name", "phone"));
            Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
            AngleSharp.Html.Dom.IHtmlDocument page = new HtmlParser().ParseDocument(await answer.Content.ReadAsStringAsync(Cancel));
            answers.Add(page.QuerySelector("[role=alert]")!.TextContent);
            Assert.Contains("this code does not work", answers[^1], StringComparison.Ordinal);
        }

        Assert.Single(answers.Distinct());
    }

    [Fact]
    public async Task Post_CodesOneAfterTheOther_AreFiveAMinuteFromOneAddress()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench);
        using HttpClient phone = shop.NewClient();
        List<HttpStatusCode> statuses = [];
        string[] spelt = ["/enter", "/enter/", "/ENTER", "/Enter/?x=1"];
        for (int n = 0; n < 8; n++)
        {
            using HttpResponseMessage answer = await EnterAsync(phone, spelt[n % spelt.Length], ("Enter.Code", "AAAAAAAA"), ("Enter.Person", "Ana"), ("Enter.Name", "phone"));
            statuses.Add(answer.StatusCode);
            if (answer.StatusCode == HttpStatusCode.TooManyRequests)
            {
                Assert.Equal("60", Assert.Single(answer.Headers.GetValues("Retry-After")));
            }
        }

        Assert.Equal([.. Enumerable.Repeat(HttpStatusCode.Forbidden, 5), .. Enumerable.Repeat(HttpStatusCode.TooManyRequests, 3)], statuses);
        Assert.Equal(5, (await test.Bench.Devices.DoorAsync(Cancel)).WrongCodes);
    }

    /// <summary>Many phones that guess together get no further than a few.</summary>
    [Fact]
    public async Task Post_CodesFromManyAddresses_AreThirtyAMinuteInAll()
    {
        Assert.SkipWhen(OperatingSystem.IsMacOS(), "This system has one address of its own only.");
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench);
        List<HttpStatusCode> statuses = [];
        for (int n = 0; n < 8; n++)
        {
            using HttpClient phone = shop.NewClient(from: IPAddress.Parse($"127.0.0.{n + 2}"));
            for (int k = 0; k < 5; k++)
            {
                using HttpResponseMessage answer = await EnterAsync(phone, "/enter", ("Enter.Code", "AAAAAAAA"), ("Enter.Person", "Ana"), ("Enter.Name", "phone"));
                statuses.Add(answer.StatusCode);
            }
        }

        Assert.Equal((30, 10), (statuses.Count(s => s == HttpStatusCode.Forbidden), statuses.Count(s => s == HttpStatusCode.TooManyRequests)));
    }

    /// <summary>The token of a program comes with each request; one that a browser was given counts for a browser only.</summary>
    [Fact]
    public async Task Api_WithTheTokenOfAProgram_SignsWithItsName()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench);
        LetIn program = await test.Bench.Devices.AddProgramAsync("parts shop", DeviceRole.Mechanic, Cancel);
        using HttpClient client = shop.NewClient();
        client.DefaultRequestHeaders.Authorization = new("Bearer", program.Token);
        client.DefaultRequestHeaders.Add("X-Shimwright-Device", "somebody else");
        using ByteArrayContent file = new(await File.ReadAllBytesAsync(Path.Combine(AppContext.BaseDirectory, "demo", "02-worn-four.json"), Cancel));
        file.Headers.ContentType = new("application/json");
        using HttpResponseMessage answer = await client.PostAsync(new Uri($"/api/v1/jobs/file?action={Guid.NewGuid()}", UriKind.Relative), file, Cancel);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync(Cancel));
        Guid job = (await test.Bench.Jobs.OpenAsync(0, 1, Cancel))[0].Id;
        string signature = DeviceSignature.Of(program.Device!);
        Assert.All((await test.Bench.Jobs.FindAsync(job, Cancel))!.Sheet.Entries, e => Assert.Equal(signature, e.Device));
        client.DefaultRequestHeaders.Authorization = new("Bearer", new string('b', 64));
        using HttpResponseMessage refused = await client.GetAsync(new Uri("/api/v1/engines", UriKind.Relative), Cancel);
        Assert.Equal(HttpStatusCode.Unauthorized, refused.StatusCode);
        Assert.Equal("application/problem+json", refused.Content.Headers.ContentType!.MediaType);
    }

    /// <summary>Only an owner discards, by whichever door.</summary>
    [Theory]
    [InlineData(DeviceRole.Mechanic, HttpStatusCode.Forbidden)]
    [InlineData(DeviceRole.Owner, HttpStatusCode.OK)]
    public async Task Api_ToDiscardAJob_IsForOwners(DeviceRole role, HttpStatusCode expected)
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench);
        using HttpClient client = await shop.LetInAsync(role);
        Guid job = await StartAsync(client);
        using StringContent body = new($$"""{"action":"{{Guid.NewGuid()}}","seen":{{(await test.Bench.Jobs.FindAsync(job, Cancel))!.Sheet.Last}},"facts":[{"fact":"discarded"}]}""", Encoding.UTF8, "application/json");
        using HttpResponseMessage answer = await client.PostAsync(new Uri($"/api/v1/jobs/{job}/facts", UriKind.Relative), body, Cancel);
        Assert.True(expected == answer.StatusCode, await answer.Content.ReadAsStringAsync(Cancel));
        Assert.Equal(role == DeviceRole.Owner, (await test.Bench.Jobs.FindAsync(job, Cancel))!.Sheet.IsDiscarded);
        if (role == DeviceRole.Owner)
        {
            // Nor does a mechanic put it back, or take the discarding back.
            using HttpClient mechanic = await shop.LetInAsync(DeviceRole.Mechanic);
            Shimwright.Bench.Jobs.StoredJob discarded = (await test.Bench.Jobs.FindAsync(job, Cancel))!;
            foreach (string fact in new[] { """{"fact":"putBack"}""", $$"""{"fact":"undone","action":"{{discarded.Sheet.Entries[^1].Action}}"}""" })
            {
                using StringContent other = new($$"""{"action":"{{Guid.NewGuid()}}","seen":{{discarded.Sheet.Last}},"facts":[{{fact}}]}""", Encoding.UTF8, "application/json");
                using HttpResponseMessage refused = await mechanic.PostAsync(new Uri($"/api/v1/jobs/{job}/facts", UriKind.Relative), other, Cancel);
                Assert.True(HttpStatusCode.Forbidden == refused.StatusCode, $"{fact}: {await refused.Content.ReadAsStringAsync(Cancel)}");
            }
        }
    }

    internal static async Task<Guid> StartAsync(HttpClient client)
    {
        using ByteArrayContent file = new(await File.ReadAllBytesAsync(Path.Combine(AppContext.BaseDirectory, "demo", "02-worn-four.json"), Cancel));
        file.Headers.ContentType = new("application/json");
        using HttpResponseMessage answer = await client.PostAsync(new Uri($"/api/v1/jobs/file?action={Guid.NewGuid()}", UriKind.Relative), file, Cancel);
        answer.EnsureSuccessStatusCode();
        JsonNode job = (await answer.Content.ReadFromJsonAsync<JsonNode>(Cancel))!;
        return (job["job"]?["id"] ?? job["id"] ?? job["job"])!.GetValue<Guid>();
    }

    private static async Task<string> CodeAsync(HttpClient owner)
    {
        using HttpResponseMessage answer = await EnterAsync(owner, "/settings/devices", "code", ("Make.Role", nameof(DeviceRole.Mechanic)));
        AngleSharp.Html.Dom.IHtmlDocument page = new HtmlParser().ParseDocument(await answer.Content.ReadAsStringAsync(Cancel));
        return page.QuerySelector("#code")!.TextContent.Replace(" ", "", StringComparison.Ordinal);
    }

    internal static Task<HttpResponseMessage> EnterAsync(HttpClient client, string path, params (string Name, string Value)[] fields) => EnterAsync(client, path, "enter", fields);

    private static async Task<HttpResponseMessage> EnterAsync(HttpClient client, string path, string handler, params (string Name, string Value)[] fields)
    {
        AngleSharp.Html.Dom.IHtmlDocument page = new HtmlParser().ParseDocument(await client.GetStringAsync(new Uri(path, UriKind.Relative), Cancel));
        AngleSharp.Html.Dom.IHtmlFormElement form = page.QuerySelectorAll("form").OfType<AngleSharp.Html.Dom.IHtmlFormElement>().First(f => f.QuerySelector("input[name=_handler]")?.GetAttribute("value") == handler);
        List<KeyValuePair<string, string>> sent = [.. FormFields.Of(form)];
        foreach ((string name, string value) in fields)
        {
            sent.RemoveAll(f => f.Key == name);
            sent.Add(new(name, value));
        }

        using FormUrlEncodedContent content = new(sent);
        return await client.PostAsync(new Uri(form.GetAttribute("action") is { Length: > 0 } action ? action : path, UriKind.Relative), content, Cancel);
    }
}
