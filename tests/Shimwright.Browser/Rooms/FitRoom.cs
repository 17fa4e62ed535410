using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Rooms;

/// <summary>The page on which the work is ticked off.</summary>
internal sealed class FitRoom(IPage page) : JobRoom(page, "Fit")
{
    /// <summary>Ticks line after line in the order of the page, as it proposes each, until all are done.</summary>
    public async Task<int> TickAllAsync()
    {
        ILocator lines = Page.Locator("ul.ticks > li");
        int all = await lines.CountAsync();
        for (int done = 0; done < all; done++)
        {
            await Expect(Page.GetByText(FormattableString.Invariant($"{done} of {all} done")).First).ToBeVisibleAsync();
            await lines.And(Page.Locator(".next")).Locator("button.first").ClickAsync();
        }

        await Expect(Page.GetByText(FormattableString.Invariant($"{all} of {all} done")).First).ToBeVisibleAsync();
        return all;
    }
}
