using System.Text.Json;
using System.Text.RegularExpressions;
using Shimwright.Browser.Looks;
using Shimwright.Browser.Running;
using Shimwright.Testing.Served;
using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Work;

/// <summary>A workshop: a laptop that serves, two phones and somebody who looks on. Whoever is not let in sees nothing.</summary>
public sealed partial class ShopTests(Chromium chromium) : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-shop-").FullName;
    private ServedBench _bench = null!;

    public async ValueTask InitializeAsync() => _bench = await ServedBench.StartAsync(Path.Combine(_folder, "bench.db"), _folder, null, "--lan", "--lock");

    public async ValueTask DisposeAsync()
    {
        await _bench.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Shop_FromTheFirstCodeOn_IsSeenByThoseLetInAndNobodyElse()
    {
        List<string> wrong = [];
        await using BenchWindow owner = await chromium.OpenAsync(_bench.Address, Screen.Small);
        Assert.Equal(401, await owner.GoAsync("/engines"));
        await Expect(owner.Page.Locator("h1")).ToHaveTextAsync("This device is not let in");
        wrong.AddRange(await LookAsync(owner, "not-let-in"));
        await owner.Page.GetByRole(AriaRole.Link, new() { Name = "Enter the code" }).ClickAsync();
        wrong.AddRange(await LookAsync(owner, "enter"));
        Match code = await FirstCodeAsync();
        await owner.Page.GetByLabel("Code").FillAsync(code.Groups[1].Value);
        await Screenshots.TellAsync(owner.Page, "shop-enter");
        await EnterAsync(owner, code.Groups[1].Value, "Ana Quill", "office laptop");
        await Expect(owner.Page.Locator("nav[aria-label=Rooms]")).ToBeVisibleAsync();
        string job = await StartJobAsync(owner);

        await owner.GoAsync("/settings");
        await owner.Page.GetByRole(AriaRole.Link, new() { Name = "Devices" }).ClickAsync();
        wrong.AddRange(await LookAsync(owner, "devices"));
        string first = await MakeCodeAsync(owner, null);
        wrong.AddRange(await LookAsync(owner, "devices-code"));
        await Screenshots.TellAsync(owner.Page, "shop-code");

        await using BenchWindow phone = await chromium.OpenAsync(_bench.Address, Screen.Small);
        await phone.GoAsync($"/enter?code={first}");
        await EnterAsync(phone, null, "Bo Tarn", "phone at lift 2");
        await using BenchWindow watcher = await chromium.OpenAsync(_bench.Address, Screen.Phone);
        await watcher.GoAsync($"/enter?code={await MakeCodeAsync(owner, "Look and print")}");
        await EnterAsync(watcher, null, "Cy Ferd", "screen on the wall");
        await Expect(watcher.Page.GetByText("It cannot save.")).ToBeVisibleAsync();

        // What the phone taps is there on the owner's page and on the wall, without a tap.
        foreach (BenchWindow window in new[] { owner, phone, watcher })
        {
            Assert.Equal(200, await window.GoAsync($"/jobs/{job}/measure"));
        }

        await phone.Page.Locator(".crank-stop form button").ClickAsync();
        await Expect(phone.Page.Locator("#valve h2")).ToBeVisibleAsync();
        await Expect(owner.Page.Locator("#valve h2")).ToBeVisibleAsync();
        await Expect(watcher.Page.Locator("#valve h2")).ToBeVisibleAsync();

        phone.AssertQuiet();

        // Who only looks on saves nothing.
        await Expect(watcher.Page.Locator("html:not(.settling)")).ToBeAttachedAsync();
        await watcher.Page.Locator("[data-feel]").First.ClickAsync();
        await Expect(watcher.Page.Locator("h1")).ToHaveTextAsync("This device may not do that");
        wrong.AddRange(await LookAsync(watcher, "may-not"));

        // Whoever is sent away is out with the next tap.
        await owner.GoAsync("/settings/devices");
        ILocator row = owner.Page.Locator(".rows > li").Filter(new() { HasText = "Bo Tarn" });
        await row.Locator("summary").ClickAsync();
        await row.GetByRole(AriaRole.Button).ClickAsync();
        await Expect(owner.Page.GetByText("Sent away. The device needs a new code.")).ToBeVisibleAsync();
        Assert.Equal(401, await phone.GoAsync($"/jobs/{job}/measure"));
        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    private static async Task<string> StartJobAsync(BenchWindow owner)
    {
        IAPIResponse answer = await owner.Page.APIRequest.PostAsync($"/api/v1/jobs/file?action={Guid.NewGuid()}", new()
        {
            Headers = new Dictionary<string, string> { ["X-Shimwright-Device"] = "laptop", ["Content-Type"] = "application/json" },
            DataString = NotMeasured(await File.ReadAllTextAsync(Repository.Demo("02-worn-four.json"))),
        });
        Assert.True(answer.Ok, await answer.TextAsync());
        JsonElement job = (await answer.JsonAsync())!.Value;
        return job.TryGetProperty("id", out JsonElement id) ? id.GetString()! : job.GetProperty("job").GetProperty("id").GetString()!;
    }

    /// <summary>The job as it is before the first valve is felt.</summary>
    private static string NotMeasured(string file)
    {
        System.Text.Json.Nodes.JsonNode job = System.Text.Json.Nodes.JsonNode.Parse(file)!;
        job["check"]!["readings"] = new System.Text.Json.Nodes.JsonArray();
        return job.ToJsonString();
    }

    private static async Task<string> MakeCodeAsync(BenchWindow owner, string? role)
    {
        if (role is not null)
        {
            await owner.Page.GetByText(role, new() { Exact = false }).First.ClickAsync();
        }

        string before = await owner.Page.Locator("#code").CountAsync() > 0 ? await owner.Page.Locator("#code").InnerTextAsync() : "";
        await owner.Page.GetByRole(AriaRole.Button, new() { Name = "Make a code" }).ClickAsync();
        await Expect(owner.Page.Locator("#code")).Not.ToHaveTextAsync(before.Length > 0 ? before : "none");
        return (await owner.Page.Locator("#code").InnerTextAsync()).Replace(" ", "", StringComparison.Ordinal);
    }

    private static async Task EnterAsync(BenchWindow window, string? code, string person, string device)
    {
        if (code is not null)
        {
            await window.Page.GetByLabel("Code").FillAsync(code);
        }

        await window.Page.GetByLabel("Your name").FillAsync(person);
        await window.Page.GetByLabel("This device").FillAsync(device);
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Let this device in" }).ClickAsync();
        await Expect(window.Page.Locator("nav[aria-label=Rooms]")).ToBeVisibleAsync();
    }

    private static async Task<IEnumerable<string>> LookAsync(BenchWindow window, string name)
    {
        await Axe.BringAsync(window.Page);
        List<string> wrong = [];
        foreach (Screen screen in Screen.All)
        {
            await window.TurnIntoAsync(screen);
            wrong.AddRange((await EveryPageTests.FaultsAsync(window.Page, name, screen)).Select(fault => $"{name}, {screen}: {fault}"));
        }

        await window.TurnIntoAsync(Screen.Small);
        return wrong;
    }

    /// <summary>The code that the terminal shows for the first phone.</summary>
    private async Task<Match> FirstCodeAsync()
    {
        for (int left = 100; left > 0 && !FirstCode().IsMatch(_bench.Said); left--)
        {
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }

        return FirstCode().Match(_bench.Said) is { Success: true } code ? code : throw new InvalidOperationException(_bench.Said);
    }

    [GeneratedRegex(@"type (\w{4} \w{4})")]
    private static partial Regex FirstCode();
}
