using System.Text.RegularExpressions;
using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Rooms;

/// <summary>What every page of a job has: its title, the stages, the next thing to do, the job's file.</summary>
internal class JobRoom(IPage page, string title)
{
    protected IPage Page { get; } = page;

    /// <summary>The page is this one, and the job stands at a stage.</summary>
    public async Task AssertHereAsync(string stage)
    {
        await Expect(Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync(title + ":");
        await Expect(Page.Locator(".stages .now")).ToHaveTextAsync(new Regex($@"^\s*{Regex.Escape(stage)}\s*$"));
    }

    /// <summary>What the page says is next leads elsewhere: taps it.</summary>
    public Task FollowAsync(string next) => Page.GetByRole(AriaRole.Link, new() { Name = next }).First.ClickAsync();

    /// <summary>Taps a stage.</summary>
    public async Task OpenAsync()
    {
        await Page.GetByRole(AriaRole.Navigation, new() { Name = "Stages of the job" }).GetByRole(AriaRole.Link, new() { Name = title }).ClickAsync();
        await Expect(Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync(title + ":");
    }

    /// <summary>Takes the job's file home.</summary>
    public async Task<string> DownloadAsync(string folder)
    {
        IDownload download = await Page.RunAndWaitForDownloadAsync(() => Page.GetByRole(AriaRole.Link, new() { Name = "job file" }).ClickAsync());
        string file = Path.Combine(folder, Guid.CreateVersion7(TimeProvider.System.GetUtcNow()).ToString("N") + ".json");
        await download.SaveAsAsync(file);
        return file;
    }

    /// <summary>Opens a fold where it is closed.</summary>
    protected async Task UnfoldAsync(string summary)
    {
        ILocator fold = Page.Locator("details").Filter(new() { Has = Page.GetByText(summary, new() { Exact = true }) }).Last;
        if (await fold.GetAttributeAsync("open") is null)
        {
            await fold.Locator("summary").First.ClickAsync();
        }
    }
}
