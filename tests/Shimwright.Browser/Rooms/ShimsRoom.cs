using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Rooms;

/// <summary>The page on which the shims that were found are entered, one valve after the other.</summary>
internal sealed class ShimsRoom(IPage page) : JobRoom(page, "Shims")
{
    /// <summary>Types what was measured.</summary>
    public async Task EnterAsync(string valve, string thickness, string by)
    {
        await Expect(Page.Locator("#turn")).ToContainTextAsync(valve);
        await Page.GetByLabel("Thickness", new() { Exact = true }).FillAsync(thickness);
        await Page.Locator(".shim-entry .chips").GetByRole(AriaRole.Radio, new() { Name = by }).CheckAsync();
        await Page.GetByRole(AriaRole.Button, new() { Name = "Save" }).First.ClickAsync();
        await AssertKnownAsync(valve, thickness, by);
    }

    /// <summary>One tap: the mark says what it is.</summary>
    public async Task TapMarkAsync(string valve, string size)
    {
        await Expect(Page.Locator("#turn")).ToContainTextAsync(valve);
        await Page.Locator(".sizes").GetByRole(AriaRole.Button, new() { Name = size }).First.ClickAsync();
        await AssertKnownAsync(valve, size, "marked");
    }

    private async Task AssertKnownAsync(string valve, string thickness, string by)
    {
        ILocator row = Page.Locator("table.shims tr").Filter(new() { Has = Page.GetByRole(AriaRole.Rowheader, new() { Name = valve, Exact = true }) });
        await Expect(row).ToContainTextAsync(thickness.Replace(',', '.'));
        await Expect(row).ToContainTextAsync(by);
    }
}
