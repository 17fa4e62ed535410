using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Shimwright.Browser.Looks;
using Shimwright.Browser.Rooms;
using Shimwright.Browser.Running;
using Shimwright.Testing.Served;
using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Work;

/// <summary>What fitting twelve shims and feeling them again costs a thumb on a small phone. The engine is played; the person does what the page proposes.</summary>
public sealed class TwelveChangesTests(EmptyBench bench, Chromium chromium) : IClassFixture<EmptyBench>
{
    private const int MostFitTaps = 14;
    private const int MostRecheckTaps = 16;
    private const int Changed = 12;

    /// <summary>How far a tight valve is below its band, mm: about the wear of two shim steps, each a little different.</summary>
    private static double Below(int valve) => 0.045 + (0.002 * (valve % 5));

    [Fact]
    public async Task FitAndRecheck_TwelveChanges_TakeFewTaps()
    {
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Small);
        await RunAsync(window, bench.Folder);
        window.AssertQuiet();
    }

    /// <summary>From a job file of sixteen valves to the end of the re-check.</summary>
    internal static async Task RunAsync(BenchWindow window, string folder)
    {
        (string file, PlayedEngine engine) = Write(folder);
        await window.GoAsync("/jobs/take-in");
        await window.Page.GetByLabel("Job file").SetInputFilesAsync(file);
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Import" }).ClickAsync();
        await window.ComesToAsync("/plan", "/measure");
        await window.GoAsync(Regex.Replace(window.Address, @"/\w+(\?.*)?$", "/plan"));
        IReadOnlyList<PlanLine> lines = await new PlanRoom(window.Page).LinesAsync();
        Assert.Equal(Changed, lines.Count(l => l.Cells["Do"] == "change"));
        await Screenshots.TellAsync(window.Page, "four-plan");
        // Like for like is no change.
        Assert.All(lines.Where(l => l.Cells["Do"] == "change"), l => Assert.NotEqual(l.Cells["Shim"].Split(' ')[0], l.Cells["Shim"].Split(' ')[^1]));
        await new PlanRoom(window.Page).AcceptAsync();
        await window.ComesToAsync("/fit");

        foreach (PlanLine line in lines.Where(l => l.Cells["Do"] == "change"))
        {
            double to = double.Parse(Regex.Matches(line.Cells["Shim"], "[0-9.]+")[^1].Value, CultureInfo.InvariantCulture);
            engine.Fit(line.Valve, line.Cells["Where from"].StartsWith("out of", StringComparison.Ordinal) ? to : PlayedEngine.Measured(to));
        }

        await Screenshots.TellAsync(window.Page, "four-fit");
        string fitting = window.Address;
        await window.GoAsync(fitting.Replace("/fit", "/map", StringComparison.Ordinal));
        await Screenshots.TellAsync(window.Page, "four-map");
        await window.GoAsync(fitting);
        int fit = await FitAsync(window);
        Counted.Write("fit 12 changes", fit, 0, 0);
        Assert.InRange(fit, 1, MostFitTaps);

        int again = await RecheckAsync(window, engine);
        Counted.Write("re-check 12 valves", again, 0, 0);
        Assert.InRange(again, Changed, MostRecheckTaps);
    }

    /// <summary>Ticks what the page offers: all steps before, the shims camshaft by camshaft, and each step after by itself.</summary>
    private static async Task<int> FitAsync(BenchWindow window)
    {
        int taps = 0;
        ILocator progress = window.Page.Locator(".progress-line strong");
        while (await window.Page.Locator("ul.ticks > li.next").CountAsync() > 0)
        {
            string before = await progress.InnerTextAsync();
            ILocator all = window.Page.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^All (of these are done|[0-9]+ fitted as planned)") });
            ILocator next = window.Page.Locator("ul.ticks > li.next button.first");
            await (await all.CountAsync() > 0 ? all.First : next).ClickAsync();
            await Expect(progress).Not.ToHaveTextAsync(before);
            taps++;
        }

        await window.Page.GetByRole(AriaRole.Link, new() { Name = "Re-check the changed valves" }).ClickAsync();
        return taps + 1;
    }

    private static async Task<int> RecheckAsync(BenchWindow window, PlayedEngine engine)
    {
        var room = new ReadingRoom(window.Page, "Re-check");
        await Expect(window.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync("Re-check:");
        await Screenshots.TellAsync(window.Page, "four-stop");
        await room.TurnCrankAsync();
        while (await window.Page.Locator(".next-up a.first").Filter(new() { HasText = "Close" }).CountAsync() == 0)
        {
            Assert.True(room.Taps < 60, "No end in sight.");
            string valve = (await window.Page.Locator("#valve h2").InnerTextAsync()).Split(',')[0];
            double blade = double.Parse((await window.Page.Locator("input[name='Tap.Blade']:checked").GetAttributeAsync("value"))!, CultureInfo.InvariantCulture);
            await room.FeelAsync(engine.Feel(valve, blade));
            await room.TurnCrankAsync();
        }

        return room.Taps;
    }

    /// <summary>A job of sixteen valves, twelve of them tight, with its shims and what was measured.</summary>
    private static (string File, PlayedEngine Engine) Write(string folder)
    {
        JsonNode job = JsonNode.Parse(File.ReadAllBytes(Repository.Demo("02-worn-four.json")))!;
        JsonArray valves = job["engine"]!["valves"]!.AsArray();
        Dictionary<string, double> gaps = [];
        foreach ((int place, JsonNode? valve) in valves.Index())
        {
            double low = valve!["band"]![0]!.GetValue<double>(), high = valve["band"]![1]!.GetValue<double>();
            gaps.Add(valve["id"]!.GetValue<string>(), place % 4 == 3 ? (low + high) / 2 : low - Below(place));
        }

        job["check"]!["readings"] = new JsonArray([.. gaps.Select(g => (JsonNode)new JsonObject { ["valve"] = g.Key, ["value"] = g.Value, ["u"] = 0.004 })]);
        Dictionary<string, double> shims = job["check"]!["fitted"]!.AsArray().ToDictionary(f => f!["valve"]!.GetValue<string>(), f => f!["thickness"]!.GetValue<double>());
        string file = Path.Combine(folder, "twelve.json");
        File.WriteAllText(file, job.ToJsonString());
        return (file, new PlayedEngine(gaps, shims));
    }
}
