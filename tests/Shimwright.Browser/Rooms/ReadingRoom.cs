using System.Text.RegularExpressions;
using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Rooms;

/// <summary>A blade that was tried, as a person says it.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Blade">The blade as its chip reads.</param>
/// <param name="Feel">What was felt, as the button reads.</param>
internal sealed record Felt(string Valve, string Blade, string Feel);

/// <summary>The pages on which valves are felt: measure and re-check.</summary>
internal sealed class ReadingRoom(IPage page, string title) : JobRoom(page, title)
{
    private const string Others = "Another blade or a stack";

    /// <summary>What the page says of the valve that is shown.</summary>
    public ILocator Estimate => Page.Locator("#valve .estimate");

    /// <summary>Goes to a valve on the picture of the head, unless the page is about it already.</summary>
    public async Task ChooseAsync(string valve)
    {
        ILocator shown = Page.Locator("#valve h2");
        if (!(await shown.InnerTextAsync()).StartsWith(valve + ",", StringComparison.Ordinal))
        {
            await Page.Locator("nav.head").GetByRole(AriaRole.Link, new() { NameRegex = new Regex($@"^{valve}\b") }).ClickAsync();
        }

        await Expect(shown).ToContainTextAsync(valve + ",");
    }

    /// <summary>Two taps: the blade, then what it felt like. The reading stands on the page afterwards.</summary>
    public async Task TapAsync(Felt felt)
    {
        ILocator readings = Page.Locator("form.readings ol > li");
        int before = await readings.CountAsync();
        ILocator blade = Page.Locator("form.tap").GetByRole(AriaRole.Radio, new() { NameRegex = new Regex($@"^{Regex.Escape(felt.Blade)}\b") });
        if (await blade.CountAsync() == 0)
        {
            await UnfoldAsync(Others);
        }

        await blade.CheckAsync();
        await Page.Locator("form.tap").GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^" + felt.Feel) }).ClickAsync();
        await Expect(readings).ToHaveCountAsync(before + 1);
        await Expect(readings.Last).ToContainTextAsync($"blade {felt.Blade} mm, {felt.Feel}");
    }

    /// <summary>Takes the last reading of the valve back.</summary>
    public async Task UndoAsync()
    {
        ILocator readings = Page.Locator("form.readings ol > li");
        int before = await readings.CountAsync();
        await Page.GetByRole(AriaRole.Button, new() { Name = "Undo the last tap" }).ClickAsync();
        await Expect(readings).ToHaveCountAsync(before - 1);
    }

    /// <summary>Says what is suspected.</summary>
    public async Task SuspectAsync(string cause)
    {
        ILocator fold = Page.Locator("details.once").Filter(new() { HasText = "What may have moved the valves?" });
        await fold.Locator("summary").ClickAsync();
        await fold.GetByRole(AriaRole.Radio, new() { Name = cause }).CheckAsync();
        await fold.GetByRole(AriaRole.Button, new() { Name = "Keep" }).ClickAsync();
        await Expect(fold.Locator("summary")).ToHaveTextAsync("Suspected: " + cause);
    }

    /// <summary>Every valve's status as the picture of the head says it, by valve.</summary>
    public async Task<IReadOnlyDictionary<string, string>> HeadAsync()
    {
        IReadOnlyList<string> valves = await Page.Locator("nav.head .head-valve").AllInnerTextsAsync();
        return valves.Select(v => v.Split((char[]?)null, 2, StringSplitOptions.RemoveEmptyEntries)).ToDictionary(v => v[0], v => v[1]);
    }
}
