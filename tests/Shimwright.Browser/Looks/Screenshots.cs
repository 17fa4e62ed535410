using Shimwright.Browser.Running;
using Shimwright.Testing.Served;

namespace Shimwright.Browser.Looks;

/// <summary>Pictures of the pages as they were tested, in artifacts/screenshots; with SHIMWRIGHT_README_IMAGES=1 the README's two as well.</summary>
internal static class Screenshots
{
    private const string Variable = "SHIMWRIGHT_README_IMAGES";

    private static readonly string Folder = Directory.CreateDirectory(Path.Combine(Repository.Root, "artifacts", "screenshots")).FullName;

    private static readonly Dictionary<string, string> InReadme = new()
    {
        ["measure-phone"] = "measure-on-a-phone.png",
        ["plan-desk"] = "plan-on-a-desk.png",
    };

    /// <summary>A picture for the guide: the screen as a person sees it, in artifacts/guide, and with SHIMWRIGHT_README_IMAGES=1 in docs/images/guide.</summary>
    public static async Task TellAsync(IPage page, string name)
    {
        byte[] picture = await page.ScreenshotAsync();
        await File.WriteAllBytesAsync(Path.Combine(Directory.CreateDirectory(Path.Combine(Repository.Root, "artifacts", "guide")).FullName, name + ".png"), picture);
        if (Environment.GetEnvironmentVariable(Variable) == "1")
        {
            await File.WriteAllBytesAsync(Path.Combine(Directory.CreateDirectory(Path.Combine(Repository.Root, "docs", "images", "guide")).FullName, name + ".png"), picture);
        }
    }

    public static async Task TakeAsync(IPage page, string name, Screen screen)
    {
        string file = $"{name}-{screen.Name}";
        await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(Folder, file + ".png"), FullPage = true });
        if (Environment.GetEnvironmentVariable(Variable) == "1" && InReadme.TryGetValue(file, out string? image))
        {
            string images = Directory.CreateDirectory(Path.Combine(Repository.Root, "docs", "images")).FullName;
            // Enough of the page for its work to be seen.
            var clip = new Clip { Width = screen.Width, Height = screen.Width < Screen.Desk.Width ? 1_300 : 920 };
            await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(images, image), FullPage = true, Clip = clip });
        }
    }
}
