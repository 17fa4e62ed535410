using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Shimwright.Browser.Looks;
using Shimwright.Browser.Running;
using Shimwright.Testing;
using Shimwright.Testing.Served;
using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Pocket;

/// <summary>Two phones and a bench, in real browsers: without a net, then with one that comes and goes. In the end all three have the same, every tap once.</summary>
public sealed class StepBrowserTests(EmptyBench bench, Chromium chromium) : IClassFixture<EmptyBench>
{
    private static readonly string[] Valves = ["I1", "I2", "E1", "E2"];

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, Effort.Cases(2, 5))];

    [Theory]
    [MemberData(nameof(Seeds))]
    public async Task Steps_TwoPhonesAndABench_EndEqual(int seed)
    {
        var random = new Random(seed);
        using HttpClient client = new() { BaseAddress = bench.Address };
        client.DefaultRequestHeaders.Add("X-Shimwright-Device", "bench");
        string shared = await StartJobAsync(client, $"Sluice pump {seed}"), second = await StartJobAsync(client, $"Hay baler {seed}");
        await using BenchWindow first = await chromium.OpenAsync(bench.Address, Screen.Phone, isPocket: true), other = await chromium.OpenAsync(bench.Address, Screen.Phone, isPocket: true);
        (BenchWindow Window, StepWindow Phone, string Own)[] phones = [(first, new(first, random), shared), (other, new(other, random), second)];
        foreach ((BenchWindow window, StepWindow phone, _) in phones)
        {
            await phone.JoinAsync();
            await window.LoseNetAsync();
        }

        int before = Entered(await RowsAsync(client));
        foreach ((_, StepWindow phone, string own) in phones)
        {
            await phone.FeelAsync(shared);
            await phone.FeelAsync(own);
            await phone.EnterShimAsync(shared, seed == 1 ? "E1" : Valves[random.Next(2)]);
            await phone.PutInAsync();
        }

        await AddAsync(client, shared, new JsonObject { ["fact"] = "note", ["text"] = $"from the bench {seed}" });
        foreach ((BenchWindow window, StepWindow phone, string own) in phones)
        {
            for (int n = 0; n < 3; n++)
            {
                await window.NetAsync(true);
                await Task.Delay(random.Next(10, 600), TestContext.Current.CancellationToken);
                await window.NetAsync(false);
            }

            await phone.FeelAsync(own);
            await window.NetAsync(true);
        }

        foreach ((_, StepWindow phone, _) in phones.Concat(phones))
        {
            await phone.UntilInStepAsync();
        }

        IReadOnlyList<string> there = await RowsAsync(client);
        int left = 0;
        foreach ((_, StepWindow phone, _) in phones)
        {
            (IReadOnlyList<string> rows, int notTaken) = await phone.RowsAsync(bench.Folder);
            Assert.Equal(there, rows);
            left += notTaken;
        }

        // Blades, shims and what went into the drawer, each once; a shim that both have said differently is said and not overwritten.
        Assert.InRange(left, 0, 1);
        Assert.Equal(phones.Sum(p => p.Phone.Taps) - left, Entered(there) - before);
        if (seed == 1)
        {
            await AnswerAsync(other, phones[1].Phone, shared);
        }
    }

    /// <summary>The phone that came second is told what came in between, and enters its own again.</summary>
    private static async Task AnswerAsync(BenchWindow window, StepWindow phone, string job)
    {
        await window.GoAsync($"/jobs/{job}/shims");
        await Expect(window.Page.Locator("main")).ToContainTextAsync("Not accepted by the bench: E1: shim");
        await window.GoAsync("/");
        await Expect(window.Page.Locator("main")).ToContainTextAsync("The bench has not accepted 1 entry from this phone.");
        await window.GoAsync("/settings/pocket");
        ILocator left = window.Page.Locator("#left form");
        await Expect(left).ToContainTextAsync("Meanwhile on the bench: ");
        await Axe.BringAsync(window.Page);
        Assert.Empty(await EveryPageTests.FaultsAsync(window.Page, "pocket-left", Screen.Phone));
        await Screenshots.TellAsync(window.Page, "pocket-in-step");
        await left.GetByRole(AriaRole.Button, new() { Name = "Enter it again" }).ClickAsync();
        await Expect(left).ToHaveCountAsync(0);
        await phone.UntilInStepAsync();
        await Expect(left).ToHaveCountAsync(0);
        window.AssertQuiet();
    }

    private static int Entered(IReadOnlyList<string> rows) => rows.Count(r =>
        r.Contains("\"fact\":\"blade\"", StringComparison.Ordinal) || r.Contains("\"fact\":\"found\"", StringComparison.Ordinal) || r.StartsWith("ledger", StringComparison.Ordinal));

    private async Task<IReadOnlyList<string>> RowsAsync(HttpClient client)
    {
        string file = Path.Combine(bench.Folder, $"bench-{Guid.NewGuid():N}.zip");
        await File.WriteAllBytesAsync(file, await client.GetByteArrayAsync(new Uri("/settings/copies/bench.zip", UriKind.Relative), TestContext.Current.CancellationToken), TestContext.Current.CancellationToken);
        return StepWindow.Rows(file);
    }

    private static async Task<string> StartJobAsync(HttpClient client, string name)
    {
        JsonNode card = JsonNode.Parse(await File.ReadAllTextAsync(Repository.Demo("01-flood-pump.json")))!["engine"]!;
        card["name"] = name;
        JsonNode engine = await SentAsync(client, "/api/v1/engines", new JsonObject { ["card"] = card.DeepClone(), ["details"] = new JsonObject { ["shimDiameter"] = 9.48 } });
        JsonNode job = await SentAsync(client, "/api/v1/jobs", new JsonObject { ["engine"] = engine["id"]!.DeepClone(), ["clock"] = 300, ["temperatureC"] = 20, ["action"] = Guid.NewGuid().ToString() });
        return job["job"]!["id"]!.GetValue<string>();
    }

    private static Task<JsonNode> AddAsync(HttpClient client, string job, JsonObject fact) =>
        SentAsync(client, $"/api/v1/jobs/{job}/facts", new JsonObject { ["action"] = Guid.NewGuid().ToString(), ["seen"] = 0, ["facts"] = new JsonArray(fact) });

    private static async Task<JsonNode> SentAsync(HttpClient client, string address, JsonObject body)
    {
        using HttpResponseMessage answer = await client.PostAsJsonAsync(new Uri(address, UriKind.Relative), body, TestContext.Current.CancellationToken);
        string text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(answer.IsSuccessStatusCode, $"{address}: {text}");
        return JsonNode.Parse(text)!;
    }
}
