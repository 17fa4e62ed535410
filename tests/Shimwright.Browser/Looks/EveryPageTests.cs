using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Shimwright.Browser.Running;
using Shimwright.Testing.Workshop;

namespace Shimwright.Browser.Looks;

/// <summary>What holds on every page, on a phone and on a desk, in light and in dark.</summary>
public class EveryPageTests(PreparedBench bench, Chromium chromium) : IClassFixture<PreparedBench>
{
    /// <summary>Touch targets: 48 CSS pixels, as the accessibility help of a big phone platform asks for; WCAG 2.2, 2.5.8, asks for 24 at least.</summary>
    private const double Tap = 48;

    public static TheoryData<string, Screen> PagesAndScreens()
    {
        TheoryData<string, Screen> data = [];
        foreach (PageToSee page in PageList.All)
        {
            foreach (Screen screen in Screen.All)
            {
                data.Add(page.Name, screen);
            }
        }

        return data;
    }

    [Theory(DisableDiscoveryEnumeration = true)]
    [MemberData(nameof(PagesAndScreens))]
    public async Task Page_OnAScreen_CanBeSeenAndTappedByAnyone(string name, Screen screen)
    {
        PageToSee page = PageList.All.Single(p => p.Name == name);
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, screen);
        Assert.InRange(await window.GoAsync(page.Address(bench.Workshop)), 200, 299);

        await Screenshots.TakeAsync(window.Page, name, screen);
        int sideways = await Sizes.SidewaysAsync(window.Page);
        IReadOnlyList<string> small = await Sizes.SmallAsync(window.Page, Tap);
        AxeResult axe = await window.Page.RunAxe();
        Assert.Multiple(
            () => Assert.Equal(0, sideways),
            () => Assert.True(small.Count == 0, $"Smaller than {Tap} pixels: {string.Join("; ", small)}"),
            () => Assert.True(axe.Violations.Length == 0, string.Join("\n", axe.Violations.SelectMany(Describe))),
            () => Assert.NotEmpty(axe.Passes),
            window.AssertQuiet);
    }

    private static IEnumerable<string> Describe(AxeResultItem violation) =>
        violation.Nodes.Select(n => $"{violation.Id}: {violation.Help}: {n.Html} ({string.Join("; ", n.Any.Concat(n.All).Concat(n.None).Select(c => c.Message))})");
}
