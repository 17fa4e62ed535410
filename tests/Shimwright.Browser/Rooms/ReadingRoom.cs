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

    /// <summary>How many taps on this page were needed so far, the crank's ticks among them.</summary>
    public int Taps { get; private set; }

    /// <summary>Goes to a valve on the head, unless the page is about it already; where the crank has to be turned first, says that it is there.</summary>
    public async Task ChooseAsync(string valve)
    {
        ILocator here = Page.Locator(".strip a[aria-current]");
        if (!(await here.InnerTextAsync()).StartsWith(valve, StringComparison.Ordinal))
        {
            await Page.Locator(".strip").GetByRole(AriaRole.Link, new() { NameRegex = new Regex($@"^{valve}\b") }).ClickAsync();
            Taps++;
        }

        await Expect(here).ToContainTextAsync(valve);
        await TurnCrankAsync();
        await Expect(Page.Locator("#valve h2")).ToContainTextAsync(valve + ",");
    }

    /// <summary>Where the page asks for the crank first, says that it is there.</summary>
    public async Task TurnCrankAsync()
    {
        await Expect(Page.Locator("#valve h2, #crank-stop").First).ToBeVisibleAsync();
        if (await Page.Locator("#crank-stop").CountAsync() > 0)
        {
            await Page.GetByRole(AriaRole.Button, new() { Name = "The crank is there" }).ClickAsync();
            Taps++;
            await Expect(Page.Locator("#valve h2")).ToBeVisibleAsync();
        }
    }

    /// <summary>Two taps, or one where the blade is chosen already: the blade, then what it felt like. The reading is on the page of its valve afterwards.</summary>
    public async Task TapAsync(Felt felt)
    {
        await ChooseAsync(felt.Valve);
        ILocator blade = Page.Locator("[name='Tap.Blade']").And(Page.GetByRole(AriaRole.Radio, new() { NameRegex = new Regex($@"^{Regex.Escape(felt.Blade)}\b|^{Regex.Escape(felt.Blade)}[a-z]") }));
        if (await blade.CountAsync() == 0)
        {
            await UnfoldAsync(Others);
        }

        if (!await blade.IsCheckedAsync())
        {
            await blade.CheckAsync();
            Taps++;
        }

        await FeelAsync(felt.Feel);
        await ChooseAsync(felt.Valve);
        await Expect(Page.Locator("form.readings ol > li").Last).ToContainTextAsync($"blade {felt.Blade} mm, {felt.Feel}");
    }

    /// <summary>One tap on a feel, by a thumb that waits until the page has settled; the page may be about the next valve afterwards.</summary>
    public async Task FeelAsync(string feel)
    {
        string seen = await SeenAsync();
        await Expect(Page.Locator("html.settling")).ToHaveCountAsync(0);
        await Page.Locator("form.tap").GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^" + feel) }).ClickAsync();
        Taps++;
        await Expect(Page.Locator("input[name$='.Seen']").First).Not.ToHaveValueAsync(seen);
    }

    private async Task<string> SeenAsync() => await Page.Locator("input[name$='.Seen']").First.InputValueAsync();

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
        IReadOnlyList<string> valves = await Page.Locator(".strip a").AllInnerTextsAsync();
        return valves.Select(v => v.Split((char[]?)null, 2, StringSplitOptions.RemoveEmptyEntries)).ToDictionary(v => v[0], v => v[1]);
    }
}
