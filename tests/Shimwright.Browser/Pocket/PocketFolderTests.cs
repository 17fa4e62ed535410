using System.Diagnostics;
using Shimwright.Browser.Looks;
using Shimwright.Browser.Running;
using Shimwright.Testing.Served;

namespace Shimwright.Browser.Pocket;

/// <summary>The folder that the command pocket writes, and the page on which a bench offers it.</summary>
public sealed class PocketFolderTests(EmptyBench bench, Chromium chromium) : IClassFixture<EmptyBench>
{
    /// <summary>What a phone loads at the first start, bytes, packed as the program's own server sends it.</summary>
    private const int MostBytes = 4_000_000;

    [Fact]
    public void Folder_PackedForTheWay_IsSmallAndHasNoLibraryOfAllUnits()
    {
        string[] packed = Directory.GetFiles(Path.Combine(Repository.Root, "artifacts", "app", "pocket"), "*.br", SearchOption.AllDirectories);
        Assert.InRange(packed.Sum(f => new FileInfo(f).Length), 2_000_000, MostBytes);
        Assert.DoesNotContain(packed, f => Path.GetFileName(f).StartsWith("UnitsNet", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Command_WithAFolder_WritesItOnceAndOverNothing()
    {
        string folder = Path.Combine(bench.Folder, "pocket");
        Assert.Contains(" files, ", await ProgramCommand.RunAsync("pocket", "--out", folder), StringComparison.Ordinal);
        string[] files = Directory.GetFiles(folder, "*", SearchOption.AllDirectories);
        Assert.Contains(Path.Combine(folder, "index.html"), files);
        Assert.DoesNotContain(files, f => f.EndsWith(".br", StringComparison.Ordinal));
        (int exit, string error) = await AgainAsync(folder);
        Assert.Equal(1, exit);
        Assert.Equal($"shimwright: --out: found something at \"{folder}\"; name a folder that is not there yet, or is empty", error.Trim());
    }

    [Fact]
    public async Task PhonePage_OnPhoneAndDesk_LeadsToTheBenchInTheBrowser()
    {
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Phone);
        await window.GoAsync("/settings/phone");
        await Axe.BringAsync(window.Page);
        foreach (Screen screen in new[] { Screen.Phone, Screen.Desk, Screen.Phone.InDark() })
        {
            await window.TurnIntoAsync(screen);
            Assert.Empty(await EveryPageTests.FaultsAsync(window.Page, "phone", screen));
        }

        await window.Page.GetByRole(AriaRole.Link, new() { Name = "Open the bench on this phone" }).ClickAsync();
        await Assertions.Expect(window.Page.Locator("html")).ToHaveAttributeAsync("data-asked", "/");
        window.AssertQuiet();
    }

    private static async Task<(int Exit, string Error)> AgainAsync(string folder)
    {
        using var process = Process.Start(new ProcessStartInfo(Repository.Script, ["pocket", "--out", folder]) { RedirectStandardError = true })!;
        string error = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (process.ExitCode, error);
    }
}
