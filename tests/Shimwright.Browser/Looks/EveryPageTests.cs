using Shimwright.Browser.Running;
using Shimwright.Testing.Workshop;

namespace Shimwright.Browser.Looks;

/// <summary>What holds on every page, on a phone and on a desk, in light and in dark.</summary>
public class EveryPageTests(PreparedBench bench, Chromium chromium) : IClassFixture<PreparedBench>
{
    /// <summary>Touch targets: 48 CSS pixels, as the accessibility help of a big phone platform asks for; WCAG 2.2, 2.5.8, asks for 24 at least.</summary>
    private const double Tap = 48;

    public static TheoryData<string> Pages => [.. PageList.All.Select(p => p.Name)];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_OnEveryScreen_CanBeSeenAndTappedByAnyone(string name)
    {
        PageToSee page = PageList.All.Single(p => p.Name == name);
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Phone);
        Assert.InRange(await window.GoAsync(page.Address(bench.Workshop)), 200, 299);
        await Axe.BringAsync(window.Page);
        List<string> wrong = [];
        foreach (Screen screen in Screen.All)
        {
            await window.TurnIntoAsync(screen);
            wrong.AddRange((await FaultsAsync(window.Page, name, screen)).Select(fault => $"{screen}: {fault}"));
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
        window.AssertQuiet();
    }

    [Fact]
    public async Task Axe_OnAPageThatIsWrong_SaysSo()
    {
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Phone);
        await window.Page.SetContentAsync("<main><img src='data:,'><p style='color: #888; background: #999'>Hard to read</p></main>");
        await Axe.BringAsync(window.Page);
        IReadOnlyList<string> faults = await Axe.FaultsAsync(window.Page);
        Assert.Contains(faults, f => f.StartsWith("image-alt:", StringComparison.Ordinal));
        Assert.StartsWith("color-contrast:", Assert.Single(await Axe.FaultsAsync(window.Page, "color-contrast")), StringComparison.Ordinal);
    }

    /// <summary>The first page is a list to look over: with ten open jobs little more than one screen of a phone.</summary>
    [Fact]
    public async Task Home_WithTenOpenJobs_IsShort()
    {
        const int Jobs = 10, Tallest = 1_100;
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Phone);
        await window.GoAsync("/");
        int jobs = await window.Page.EvaluateAsync<int>($"() => {{ [...document.querySelectorAll('.work li:has(time)')].slice({Jobs}).forEach(l => l.remove()); return document.querySelectorAll('.work li:has(time)').length; }}");
        Assert.Equal(Jobs, jobs);
        Assert.InRange(await window.Page.EvaluateAsync<int>("() => document.documentElement.scrollHeight"), 500, Tallest);
    }

    /// <summary>What is wrong with the page that is open, as a screen shows it.</summary>
    internal static async Task<IEnumerable<string>> FaultsAsync(IPage page, string name, Screen screen)
    {
        int sideways = await Sizes.SidewaysAsync(page);
        if (screen.Dark || screen.Sun)
        {
            // Other colours, nothing else; the sun's edges are thicker.
            return [.. await Axe.FaultsAsync(page, "color-contrast"), .. sideways > 0 ? [$"{sideways} pixels to scroll sideways"] : Array.Empty<string>()];
        }

        if (screen == Screen.Narrow || screen == Screen.Zoomed || screen == Screen.Small)
        {
            return sideways > 0 ? [$"{sideways} pixels to scroll sideways"] : [];
        }

        await Screenshots.TakeAsync(page, name, screen);
        IReadOnlyList<string> small = await Sizes.SmallAsync(page, Tap);
        return
        [
            .. await Axe.FaultsAsync(page),
            .. sideways > 0 ? [$"{sideways} pixels to scroll sideways"] : Array.Empty<string>(),
            .. small.Select(s => $"smaller than {Tap} pixels: {s}"),
        ];
    }
}
