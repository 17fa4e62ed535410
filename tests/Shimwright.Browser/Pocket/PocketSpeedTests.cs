using System.Diagnostics;
using System.Globalization;
using Shimwright.Browser.Rooms;
using Shimwright.Browser.Running;
using Shimwright.Testing;
using Shimwright.Testing.Served;
using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Pocket;

/// <summary>How long the bench in a browser takes beside the server's on the same jobs: written to artifacts/pocket-speed.txt, for bench/RESULTS.md.</summary>
[Nightly]
public sealed class PocketSpeedTests(EmptyBench bench, Chromium chromium) : IClassFixture<EmptyBench>
{
    private const int Times = 7;

    /// <summary>A tap that changes one reading, then the page with the new estimate; the plan; what pays next, with its worker running.</summary>
    private const string Tap =
        """
        async () => {
          const seen = document.querySelector("input[name$='.Seen']").value;
          const start = performance.now();
          document.querySelector("form.tap [data-feel]").click();
          while (performance.now() < start + 30000 && (document.querySelector("input[name$='.Seen']")?.value ?? seen) === seen) { await new Promise(done => setTimeout(done, 1)); }
          return performance.now() - start;
        }
        """;

    /// <summary>A tap, and when the page first shows that it was taken.</summary>
    private const string Sign =
        """
        async () => {
          const start = performance.now();
          document.querySelector("form.tap [data-feel]").click();
          while (!document.documentElement.classList.contains("busy")) {
            if (performance.now() > start + 30000) { throw new Error("the tap came to nothing"); }
            await new Promise(requestAnimationFrame);
          }
          await new Promise(requestAnimationFrame);
          return performance.now() - start;
        }
        """;

    [Fact]
    public async Task Taps_PlansAndAdvice_InTheBrowserAndOnTheServer()
    {
        List<string> lines = [];
        foreach (bool isPocket in new[] { false, true })
        {
            await using BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Phone, isPocket);
            string side = isPocket ? "browser" : "server";
            foreach ((string file, string name) in new[] { ("01-flood-pump.json", "Flood pump"), ("02-worn-four.json", "shuttle") })
            {
                await window.GoAsync("/jobs/take-in");
                await window.Page.Locator("#file").SetInputFilesAsync(Repository.Demo(file));
                await window.Page.GetByRole(AriaRole.Button, new() { Name = "Import", Exact = true }).ClickAsync();
                await Expect(window.Page.Locator(".stages")).ToBeVisibleAsync();
                string job = window.Page.Url.Split("/jobs/")[1].Split('/')[0];
                foreach ((string what, string address) in new[] { ("measure", $"/jobs/{job}/measure"), ("plan", $"/jobs/{job}/plan"), ("next", $"/jobs/{job}/next") })
                {
                    lines.Add($"{side} {file} {what}: {await TimesAsync(window, address)}");
                }

                await window.GoAsync("/engines");
                await window.Page.Locator("main a").Filter(new() { HasText = name }).First.ClickAsync();
                await new NewEngineRoom(window.Page).StartJobAsync("140000");
                lines.Add($"{side} {file} tap: {await TapsAsync(window)}");
            }

            if (isPocket)
            {
                lines.Add($"first start: {await StartAsync(await chromium.OpenAsync(bench.Address, Screen.Phone, isPocket: true))} ms");
                lines.Add($"sign of work after a tap, the page's processor slowed four times: {await SignsAsync(window)}");
                await window.LoseNetAsync();
                List<double> starts = [];
                for (int i = 0; i < Times; i++)
                {
                    long start = Stopwatch.GetTimestamp();
                    await window.Page.ReloadAsync();
                    await Expect(window.Page.Locator("nav").First).ToBeVisibleAsync();
                    starts.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
                }

                lines.Add($"later starts: {Shown(starts)}");
            }
        }

        await File.WriteAllLinesAsync(Path.Combine(Repository.Root, "artifacts", "pocket-speed.txt"), lines, TestContext.Current.CancellationToken);
        Assert.Equal(19, lines.Count);
    }

    private static async Task<double> StartAsync(BenchWindow window)
    {
        await using (window)
        {
            long start = Stopwatch.GetTimestamp();
            await window.GoAsync("/");
            return Math.Round(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }
    }

    /// <summary>Each page is asked for anew from another one, so that nothing is kept of it.</summary>
    private static async Task<string> TimesAsync(BenchWindow window, string address)
    {
        List<double> times = [];
        for (int i = 0; i < Times; i++)
        {
            await window.GoAsync("/settings/workshop");
            long start = Stopwatch.GetTimestamp();
            await window.GoAsync(address);
            times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }

        return Shown(times);
    }

    private static async Task<string> SignsAsync(BenchWindow window)
    {
        ICDPSession processor = await window.Page.Context.NewCDPSessionAsync(window.Page);
        await processor.SendAsync("Emulation.setCPUThrottlingRate", new() { ["rate"] = 4 });
        string signs = await TapsAsync(window, Sign);
        await processor.SendAsync("Emulation.setCPUThrottlingRate", new() { ["rate"] = 1 });
        return signs;
    }

    private static async Task<string> TapsAsync(BenchWindow window, string tap = Tap)
    {
        List<double> times = [];
        for (int i = 0; i < Times; i++)
        {
            await Expect(Ready(window)).ToHaveCountAsync(1);
            ILocator crank = window.Page.GetByRole(AriaRole.Button, new() { Name = "The crank is there" });
            if (await crank.CountAsync() > 0)
            {
                await crank.ClickAsync();
                await Expect(window.Page.Locator("#valve h2")).ToBeVisibleAsync();
                await Expect(Ready(window)).ToHaveCountAsync(1);
            }

            times.Add(await window.Page.EvaluateAsync<double>(tap));
        }

        return Shown(times);
    }

    /// <summary>The page of the last tap is there, and takes the next: before that a feel is held off, as the second half of a double tap.</summary>
    private static ILocator Ready(BenchWindow window) => window.Page.Locator("html:not(.busy):not(.settling)");

    /// <summary>The first, then the middle of the others and the longest of them, ms.</summary>
    private static string Shown(List<double> times)
    {
        double[] later = [.. times.Skip(1).Order()];
        return string.Create(CultureInfo.InvariantCulture, $"first {times[0]:0}, then {later[later.Length / 2]:0}, at most {later[^1]:0} ms");
    }
}
