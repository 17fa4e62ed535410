using System.Globalization;
using System.IO.Compression;
using System.Text.RegularExpressions;
using Shimwright.Browser.Rooms;
using Shimwright.Browser.Running;
using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Pocket;

/// <summary>A phone that keeps in step with a bench, tapped on by a person.</summary>
/// <param name="window">Its window.</param>
/// <param name="random">Chance.</param>
internal sealed class StepWindow(BenchWindow window, Random random)
{
    private static readonly string[] Feels = ["light", "firm", "loose", "won't enter"];

    private IPage Page => window.Page;

    /// <summary>How many taps the phone has acknowledged.</summary>
    public int Taps { get; private set; }

    /// <summary>Begins to keep in step, and waits until it is.</summary>
    public async Task JoinAsync()
    {
        await window.GoAsync("/settings/pocket");
        await Page.GetByRole(AriaRole.Button, new() { Name = "Keep in step with the bench" }).ClickAsync();
        await Expect(Page.GetByText("Last update")).ToBeVisibleAsync();
        await UntilInStepAsync();
    }

    /// <summary>Waits until everything is sent and everything fetched.</summary>
    public async Task UntilInStepAsync()
    {
        await window.GoAsync("/settings/pocket");
        for (int n = 0; n < 2; n++)
        {
            // A step that was under way may have been begun before the last tap: the next one was not.
            await Page.GetByRole(AriaRole.Button, new() { Name = "Update now" }).ClickAsync();
            await Expect(Page.Locator("html:not(.busy)[data-step=in] dd[data-pending]")).ToHaveAttributeAsync("data-pending", "0");
        }
    }

    /// <summary>Feels a valve of a job.</summary>
    public async Task FeelAsync(string job)
    {
        await window.GoAsync($"/jobs/{job}/measure");
        var room = new ReadingRoom(Page, "Measure");
        await room.TurnCrankAsync();
        await Page.Locator(".strip a").Nth(random.Next(4)).ClickAsync();
        await Expect(Page.Locator("html:not(.busy)")).ToBeAttachedAsync();
        await room.TurnCrankAsync();
        ILocator blades = Page.Locator("form.tap [name='Tap.Blade']");
        await blades.Nth(random.Next(Math.Min(3, await blades.CountAsync()))).CheckAsync();
        await room.FeelAsync(Feels[random.Next(Feels.Length)]);
        Taps++;
    }

    /// <summary>Enters the shim of a valve.</summary>
    public async Task EnterShimAsync(string job, string valve)
    {
        await window.GoAsync($"/jobs/{job}/shims?valve={valve}");
        await Page.Locator("#thickness").FillAsync((2.4 + (0.01 * random.Next(30))).ToString("0.00", CultureInfo.InvariantCulture));
        await Page.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^Save") }).ClickAsync();
        await Expect(Page.Locator("html:not(.busy)")).ToBeAttachedAsync();
        Taps++;
    }

    /// <summary>Puts shims into the drawer.</summary>
    public async Task PutInAsync()
    {
        await window.GoAsync("/drawer");
        foreach ((string field, string text) in new[] { ("Diameter", "9.48"), ("Thickness", "2.45"), ("Count", "2") })
        {
            await Page.Locator($"input[name='PutIn.{field}']").FillAsync(text);
        }

        await Page.Locator("main form").GetByRole(AriaRole.Button, new() { Name = "Add shims" }).ClickAsync();
        await Expect(Page.Locator("html:not(.busy)")).ToBeAttachedAsync();
        await Expect(Page.Locator("main")).ToContainTextAsync("2.45");
        Taps++;
    }

    /// <summary>The rows of the whole bench as the phone has them, and how many entries it has left out.</summary>
    public async Task<(IReadOnlyList<string> Rows, int Left)> RowsAsync(string folder)
    {
        await window.GoAsync("/settings/pocket");
        IDownload download = await Page.RunAndWaitForDownloadAsync(() => Page.GetByRole(AriaRole.Link, new() { Name = "Save a copy" }).ClickAsync());
        string file = Path.Combine(folder, $"phone-{Guid.NewGuid():N}.zip");
        await download.SaveAsAsync(file);
        return (Rows(file), await Page.Locator("#left form").CountAsync());
    }

    /// <summary>The rows of an archive.</summary>
    public static IReadOnlyList<string> Rows(string archive)
    {
        using ZipArchive zip = ZipFile.OpenRead(archive);
        return
        [
            .. zip.Entries.Where(e => e.Name != "manifest.json").SelectMany(e =>
            {
                using StreamReader lines = new(e.Open());
                return lines.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => $"{e.Name}: {l}").ToArray();
            }),
        ];
    }
}
