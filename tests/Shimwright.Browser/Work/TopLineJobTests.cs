using System.Globalization;
using System.Text.RegularExpressions;
using Shimwright.Browser.Rooms;
using Shimwright.Browser.Running;
using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Work;

/// <summary>
/// A whole dusty job on a phone by someone who does nothing but what the line on top says, or, where nothing pays, what the page proposes:
/// from the engine's card to the record, and every gap in its band in the end.
/// </summary>
public sealed class TopLineJobTests(EmptyBench bench, Chromium chromium) : IClassFixture<EmptyBench>
{
    private const int MostTaps = 150;

    private static readonly EngineAnswers Engine = new(
        "Gravel washer, the old pump", "Shim under bucket", "1", "4: two intake, two exhaust", "Intake and exhaust camshaft",
        new Dictionary<string, string>(),
        new Dictionary<string, string>
        {
            ["Intake, lower limit"] = "0.15",
            ["Intake, upper limit"] = "0.22",
            ["Exhaust, lower limit"] = "0.22",
            ["Exhaust, upper limit"] = "0.29",
        });

    /// <summary>Two valves too tight for most blades, one a little tight, one right.</summary>
    private readonly PlayedEngine _engine = new(
        new() { ["I1"] = 0.052, ["I2"] = 0.131, ["E1"] = 0.094, ["E2"] = 0.251 },
        new() { ["I1"] = 2.318, ["I2"] = 2.347, ["E1"] = 2.402, ["E2"] = 2.484 });

    private static readonly Dictionary<string, string> Titles = new()
    {
        ["measure"] = "Measure",
        ["shims"] = "Shims",
        ["plan"] = "Plan",
        ["fit"] = "Fit",
        ["dry"] = "Dry fit",
        ["recheck"] = "Re-check",
        ["close"] = "Close",
        ["next"] = "What pays next",
    };

    private readonly List<string> _said = [];

    [Fact]
    public async Task Job_ByTheTopLineOnly_EndsWithEveryGapInItsBand()
    {
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Phone);
        await window.GoAsync("/settings");
        ILocator minutes = window.Page.Locator("details").Filter(new() { Has = window.Page.Locator("input[name='Bench.TakesDepth']") }).Last;
        await minutes.Locator("summary").First.ClickAsync();
        await window.Page.Locator("input[name='Bench.TakesDepth']").FillAsync("");
        await minutes.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^Save") }).Last.ClickAsync();
        await Expect(window.Page.GetByText("Saved.")).ToBeVisibleAsync();
        await window.GoAsync("/");
        var engine = new NewEngineRoom(window.Page);
        await engine.MakeAsync(Engine);
        await engine.StartJobAsync("212");
        await new ReadingRoom(window.Page, "Measure").SuspectAsync("Dust got in");

        int taps = 0;
        while (!window.Page.Url.Contains("/record", StringComparison.Ordinal))
        {
            Assert.True(++taps < MostTaps, $"No end in sight: {string.Join(" | ", _said.TakeLast(20))}");
            await StepAsync(window.Page);
        }

        await Expect(new RecordRoom(window.Page).Article).ToContainTextAsync("Checked, passes.");
        Assert.All(["I1", "I2"], v => Assert.InRange(_engine.GapAt(v), 0.15, 0.22));
        Assert.All(["E1", "E2"], v => Assert.InRange(_engine.GapAt(v), 0.22, 0.29));
        // The line has said something of its own before the plan and at the re-check.
        Assert.Contains(_said, s => s.StartsWith("Try ", StringComparison.Ordinal));
        Assert.Contains(_said, s => s.StartsWith("Every valve passes", StringComparison.Ordinal));
        window.AssertQuiet();
    }

    /// <summary>Does what the line on top says; where it says that nothing pays, or there is none, what the page has for the next thing.</summary>
    private async Task StepAsync(IPage page)
    {
        string here = Regex.Match(page.Url, @"/jobs/[^/]+/(\w+)").Groups[1].Value;
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync(Titles[here] + ":");
        ILocator line = page.Locator("#next-thing");
        if (await line.CountAsync() > 0)
        {
            await Expect(line.Locator("strong")).ToBeVisibleAsync(new() { Timeout = BenchWindow.LongestWait });
            string words = await line.Locator("strong").InnerTextAsync();
            _said.Add($"{words} [{here}]");
            if (await line.Locator("a.first").CountAsync() > 0)
            {
                await FollowAsync(page, words, line.Locator("a.first"));
                return;
            }

            string to = (await line.Locator("a").First.GetAttributeAsync("href"))!;
            if (!page.Url.Contains(to.Split('#')[0], StringComparison.Ordinal) || (here == "dry" && !to.Contains("/dry", StringComparison.Ordinal)))
            {
                // On fit the shims that stay are ticked on with, once it is known that they stay.
                if (here != "fit")
                {
                    await line.Locator("a").First.ClickAsync();
                    await Expect(page).Not.ToHaveURLAsync(new Regex($"/{here}"));
                    return;
                }
            }
        }

        await OnPageAsync(page, here);
    }

    /// <summary>One tap leads to where it is done; there it is done.</summary>
    private async Task FollowAsync(IPage page, string words, ILocator tap)
    {
        Match blade = Regex.Match(words, @"^Try ([0-9.]+)(?: and ([0-9.]+) together)? at (\w+)");
        Match shim = Regex.Match(words, @"^(?:Measure|Buy) the ([0-9.]+) shim");
        if (blade.Success)
        {
            double thickness = Number(blade.Groups[1].Value) + (blade.Groups[2].Success ? Number(blade.Groups[2].Value) : 0);
            await GoAsync(page, tap);
            await FeelAsync(page, blade.Groups[3].Value, thickness, blade.Groups[2].Success ? 2 : 1);
        }
        else if (words.StartsWith("Turn the bucket of ", StringComparison.Ordinal))
        {
            string valve = Regex.Match(words, @"of (\w+) by hand").Groups[1].Value;
            await GoAsync(page, tap);
            await UnfoldAsync(page, "Bucket by hand, or a measured value");
            await ReadAsync(page, page.GetByRole(AriaRole.Button, new() { Name = _engine.Turns(valve) ? "It turns" : "It does not" }));
        }
        else if (shim.Success)
        {
            double marked = Number(shim.Groups[1].Value);
            await tap.ClickAsync();
            await page.GetByLabel("The micrometer says, mm").FillAsync(PlayedEngine.Typed(PlayedEngine.Measured(marked)));
            await page.Locator("#measure button").ClickAsync();
            await Expect(page.Locator("#measure")).ToHaveCountAsync(0);
        }
        else if (words.StartsWith("Fit the ", StringComparison.Ordinal))
        {
            await tap.ClickAsync();
            await Expect(page).ToHaveURLAsync(new Regex("/dry"));
        }
        else
        {
            Assert.Fail($"Nobody has said how to do this: {words}");
        }
    }

    private async Task OnPageAsync(IPage page, string here)
    {
        switch (here)
        {
            case "measure" or "recheck":
                await OnReadingAsync(page, here);
                break;
            case "dry":
                await GoOnAsync(page);
                break;
            case "shims":
                string valve = (await page.Locator("#turn strong").InnerTextAsync()).Trim();
                await page.GetByLabel("Thickness", new() { Exact = true }).FillAsync(PlayedEngine.Typed(_engine.ShimAt(valve)));
                await page.Locator(".shim-entry .chips").GetByRole(AriaRole.Radio, new() { Name = "micrometer" }).CheckAsync();
                await page.GetByRole(AriaRole.Button, new() { Name = "Save" }).First.ClickAsync();
                await Expect(page.Locator("table.shims tr").Filter(new() { Has = page.GetByRole(AriaRole.Rowheader, new() { Name = valve, Exact = true }) })).ToContainTextAsync("micrometer");
                break;
            case "plan":
                await page.GetByRole(AriaRole.Button, new() { Name = "Accept this plan" }).ClickAsync();
                await Expect(page).ToHaveURLAsync(new Regex("/fit"));
                break;
            case "fit":
                await TickAsync(page);
                break;
            case "close":
                await new CloseRoom(page).CloseAsync("213", "Dust behind the filter.", "", "The shed");
                await Expect(page).ToHaveURLAsync(new Regex("/record"));
                break;
            default:
                Assert.Fail($"The line on top led to {page.Url}.");
                break;
        }
    }

    /// <summary>The blade that the page suggests at the valve that it shows; or where the page leads once nothing is left to read.</summary>
    private async Task OnReadingAsync(IPage page, string here)
    {
        ILocator chip = page.Locator("input[name='Tap.Blade']:checked");
        ILocator on = page.Locator(".next-up a.first");
        await new ReadingRoom(page, "").TurnCrankAsync();
        if (await chip.CountAsync() > 0 && await on.Filter(new() { HasNotText = "Next:" }).CountAsync() == 0)
        {
            string valve = Regex.Match(await page.Locator("#valve h2").InnerTextAsync(), @"^\w+").Value;
            double blade = Number((await chip.GetAttributeAsync("value"))!);
            await FeelAsync(page, valve, blade, 1);
        }
        else
        {
            await on.First.ClickAsync();
            await Expect(page).Not.ToHaveURLAsync(new Regex($"/{here}"));
        }
    }

    private static async Task GoOnAsync(IPage page)
    {
        ILocator go = page.Locator("#go-on").Locator("button.first, a.first");
        await go.ClickAsync();
        await Expect(page).ToHaveURLAsync(new Regex("/fit"));
    }

    private async Task TickAsync(IPage page)
    {
        ILocator next = page.Locator("ul.ticks > li.next");
        if (await next.CountAsync() == 0)
        {
            await page.GetByRole(AriaRole.Link, new() { Name = "Re-check the changed valves" }).ClickAsync();
            await Expect(page).ToHaveURLAsync(new Regex("/recheck"));
            return;
        }

        string text = await page.Locator(".progress-line strong").InnerTextAsync();
        string id = await next.GetAttributeAsync("id") ?? "";
        if (id.StartsWith("valve-", StringComparison.Ordinal))
        {
            string move = await next.Locator(".move").InnerTextAsync();
            double to = Number(Regex.Matches(move, "[0-9.]+")[^1].Value);
            _engine.Fit(id["valve-".Length..], (await next.InnerTextAsync()).Contains("micrometer", StringComparison.Ordinal) ? to : PlayedEngine.Measured(to));
        }

        await next.Locator("button.first").ClickAsync();
        await Expect(page.Locator(".progress-line strong")).Not.ToHaveTextAsync(text);
    }

    private async Task FeelAsync(IPage page, string valve, double blade, int leaves)
    {
        await Expect(page.Locator("#valve h2")).ToContainTextAsync(valve + ",");
        if (leaves > 1)
        {
            // A page that comes meanwhile closes the fold again.
            for (int again = 0; again < 5 && !await page.GetByLabel("Thickness of the blade or the whole stack").IsVisibleAsync(); again++)
            {
                await UnfoldAsync(page, "Another blade or a stack");
                await page.WaitForTimeoutAsync(500);
            }

            await page.GetByLabel("Thickness of the blade or the whole stack").FillAsync(PlayedEngine.Typed(blade));
            await page.GetByLabel("Leaves in the stack").FillAsync(leaves.ToString(CultureInfo.InvariantCulture));
        }
        else
        {
            await Expect(page.Locator("input[name='Tap.Blade']:checked")).ToHaveValueAsync(blade.ToString("R", CultureInfo.InvariantCulture));
        }

        await ReadAsync(page, page.Locator("form.tap").GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^" + _engine.Feel(valve, blade)) }));
    }

    /// <summary>A tap after which one reading more stands on the page.</summary>
    private static async Task ReadAsync(IPage page, ILocator button)
    {
        ILocator seen = page.Locator("input[name$='.Seen']").First;
        string before = await seen.InputValueAsync();
        await Expect(page.Locator("html.settling")).ToHaveCountAsync(0);
        await button.ClickAsync();
        await Expect(seen).Not.ToHaveValueAsync(before);
    }

    private static async Task GoAsync(IPage page, ILocator tap)
    {
        string to = (await tap.GetAttributeAsync("href"))!;
        await tap.ClickAsync();
        await Expect(page).ToHaveURLAsync(new Regex(Regex.Escape(to.Split('#')[0])));
    }

    private static async Task UnfoldAsync(IPage page, string summary)
    {
        ILocator fold = page.Locator("details").Filter(new() { Has = page.GetByText(summary, new() { Exact = true }) }).Last;
        if (await fold.GetAttributeAsync("open") is null)
        {
            await fold.Locator("summary").First.ClickAsync();
        }
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
