using Shimwright.Browser.Running;
using Shimwright.Jobs.Fitting;
using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Looks;

/// <summary>What the page of measuring owes to hands that cannot tap, and to a screen that goes dark.</summary>
public sealed class MeasureTests(PreparedBench bench, Chromium chromium) : IClassFixture<PreparedBench>
{
    /// <summary>More than there are things to reach on the page.</summary>
    private const int MostSteps = 200;

    private string Address => $"/jobs/{bench.Workshop.JobAt(JobStage.Measure)}/measure";

    [Fact]
    public async Task Tap_ByKeyboardAlone_AddsAReading()
    {
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Desk);
        await window.GoAsync(Address + "?valve=E2");
        ILocator readings = window.Page.Locator("form.readings ol > li");
        int before = await readings.CountAsync();

        await TabToAsync(window.Page, "name", "Tap.Blade");
        Assert.True(await IsOutlinedAsync(window.Page));
        await window.Page.Keyboard.PressAsync("ArrowRight");
        await TabToAsync(window.Page, "value", "light");
        Assert.True(await IsOutlinedAsync(window.Page));
        await window.Page.Keyboard.PressAsync("Enter");

        await Expect(readings).ToHaveCountAsync(before + 1);
        window.AssertQuiet();
    }

    /// <summary>With script the heading has the focus already; without, the first thing that Tab reaches leads past the navigation.</summary>
    [Fact]
    public async Task Tab_WithoutScript_OffersToSkipTheNavigation()
    {
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Desk.WithoutScript());
        await window.GoAsync(Address);
        await window.Page.Keyboard.PressAsync("Tab");
        await Expect(window.Page.Locator(".skip")).ToBeFocusedAsync();
        await window.Page.Keyboard.PressAsync("Enter");
        await Expect(window.Page.Locator("main")).ToBeFocusedAsync();
    }

    [Fact]
    public async Task Page_WithScript_SaysWhetherTheScreenStaysOn()
    {
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Phone);
        await window.GoAsync(Address);
        string allowed = await window.Page.EvaluateAsync<bool>("async () => { try { await (await navigator.wakeLock.request('screen')).release(); return true; } catch { return false; } }")
            ? "The screen stays on while this page is open."
            : "The browser did not keep the screen on. Set a longer screen time-out while you measure.";
        await Expect(window.Page.Locator("[data-keep-awake]")).ToHaveTextAsync(allowed);
        window.AssertQuiet();
    }

    [Fact]
    public async Task Page_WithoutScript_SaysToSetTheScreen()
    {
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Phone.WithoutScript());
        await window.GoAsync(Address);
        await Expect(window.Page.Locator("[data-keep-awake]")).ToHaveTextAsync("Set a longer screen time-out while you measure.");
    }

    private static async Task TabToAsync(IPage page, string property, string wanted)
    {
        for (int step = 0; step < MostSteps; step++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await FocusedAsync(page, property) == wanted)
            {
                return;
            }
        }

        Assert.Fail($"Nothing whose {property} is {wanted} can be reached by the Tab key.");
    }

    private static Task<string?> FocusedAsync(IPage page, string property) => page.EvaluateAsync<string?>("p => document.activeElement[p] ?? null", property);

    /// <summary>The focus can be seen: an outline on what has it, or on what stands for it beside.</summary>
    private static Task<bool> IsOutlinedAsync(IPage page) => page.EvaluateAsync<bool>(
        "() => [document.activeElement, document.activeElement.nextElementSibling].some(e => e && getComputedStyle(e).outlineStyle !== 'none' && parseFloat(getComputedStyle(e).outlineWidth) >= 2)");
}
