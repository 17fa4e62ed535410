using System.IO.Compression;
using System.Text.Json.Nodes;
using Shimwright.Browser.Looks;
using Shimwright.Browser.Rooms;
using Shimwright.Browser.Running;
using Shimwright.Browser.Work;
using Shimwright.Testing.Pictures;
using Shimwright.Testing.Workshop;
using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Pocket;

/// <summary>The bench that runs in the browser itself: the same pages and figures, and no net from the second start on.</summary>
public sealed class PocketTests(EmptyBench empty, PreparedBench prepared, Chromium chromium) : IClassFixture<EmptyBench>, IClassFixture<PreparedBench>
{
    private static readonly string[] LookedAt = ["bench", "engine", "wear", "due", "drawer", "orders", "settings", "copies", "timing", "measure", "plan", "fit", "record", "photos", "here"];

    [Fact]
    public async Task DustyJob_WithoutANet_ShowsWhatTheCommandsSay()
    {
        await using BenchWindow window = await chromium.OpenAsync(empty.Address, Screen.Phone, isPocket: true);
        await window.GoAsync("/");
        await window.LoseNetAsync();
        await new DustyJob(window, Screen.Phone, empty.Folder).RunAsync();
        // All of it lies in the browser: it is there after the next start.
        await window.Page.ReloadAsync();
        await Expect(new RecordRoom(window.Page).Article).ToContainTextAsync("Look again in 50 hours.");
    }

    [Fact]
    public async Task SixteenValves_OfAnImportedBench_AreMeasuredAndPlannedWithoutANet()
    {
        await using BenchWindow window = await FilledAsync();
        await window.LoseNetAsync();
        await window.GoAsync($"/engines/{prepared.Workshop.SixteenEngine}");
        await new NewEngineRoom(window.Page).StartJobAsync("130000");
        var room = new ReadingRoom(window.Page, "Measure");
        await SixteenValveTests.MeasureAsync(window.Page, room);
        IReadOnlyDictionary<string, string> head = await room.HeadAsync();
        Assert.Equal(16, head.Count);
        Assert.All(["I2", "E2", "E6"], v => Assert.Contains("out of band", head[v], StringComparison.Ordinal));
        string valve = (await window.Page.Locator(".strip a[aria-current]").InnerTextAsync()).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)[0];
        await CommandFigures.AssertEstimateAsync(await room.DownloadAsync(empty.Folder), valve, await room.Estimate.InnerTextAsync());

        await window.GoAsync($"/jobs/{prepared.Workshop.Wide}/plan");
        var plan = new PlanRoom(window.Page);
        await CommandFigures.AssertPlanAsync(await plan.DownloadAsync(empty.Folder), plan);
        window.AssertQuiet();
    }

    [Fact]
    public async Task SixteenValves_FromAFileToTheRecord_WithoutANet()
    {
        await using BenchWindow window = await chromium.OpenAsync(empty.Address, Screen.Phone, isPocket: true);
        await window.GoAsync("/");
        await window.LoseNetAsync();
        await TwelveChangesTests.RunAsync(window, empty.Folder);
        var close = new CloseRoom(window.Page);
        await close.OpenAsync();
        Assert.Equal("All pass", await close.HeadlineAsync());
        string file = await close.DownloadAsync(empty.Folder);
        await CommandFigures.AssertVerdictAsync(file, await close.LinesAsync());
        await close.CloseAsync("130100", "Twelve were tight.", "", "The shed");
        var record = new RecordRoom(window.Page);
        await Expect(record.Article).ToContainTextAsync("Twelve were tight.");
        Assert.StartsWith("12 of 16 valves were adjusted.", await record.SummaryAsync(), StringComparison.Ordinal);
        await CommandFigures.AssertNowAsync(file, await record.LinesAsync());
        window.AssertQuiet();
    }

    [Fact]
    public async Task Archive_InAndOut_IsTheSameLineByLine()
    {
        await using BenchWindow window = await FilledAsync();
        await window.GoAsync("/settings/pocket");
        IDownload download = await window.Page.RunAndWaitForDownloadAsync(() => window.Page.GetByRole(AriaRole.Link, new() { Name = "Save a copy" }).ClickAsync());
        string again = Path.Combine(empty.Folder, "again.zip");
        await download.SaveAsAsync(again);
        Assert.Equal(Files(await prepared.ArchiveAsync(empty.Folder)), Files(again));
        window.AssertQuiet();
    }

    [Fact]
    public async Task Photo_OfACamera_IsKeptUprightAndGoesIntoTheArchive()
    {
        await using BenchWindow window = await FilledAsync();
        await window.LoseNetAsync();
        await window.GoAsync($"/jobs/{prepared.Workshop.Wide}/photos");
        // Larger than is kept, and lying on its side: the browser makes it smaller before the program unpacks it.
        await window.Page.Locator("#camera").SetInputFilesAsync(new FilePayload { Name = "camera.jpg", MimeType = "image/jpeg", Buffer = SamplePicture.Jpeg(2400, 3200, orientation: 6) });
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Add the photo" }).ClickAsync();
        ILocator thumb = window.Page.Locator(".photos img");
        await Expect(thumb).ToHaveCountAsync(1);
        await window.Page.ReloadAsync();
        await Expect(thumb).ToHaveAttributeAsync("src", new System.Text.RegularExpressions.Regex("^blob:"));
        int[] size = await thumb.EvaluateAsync<int[]>("async i => { await i.decode(); return [i.naturalWidth, i.naturalHeight]; }");
        Assert.Equal([240, 320], size);
        await window.GoAsync("/settings/pocket");
        IDownload download = await window.Page.RunAndWaitForDownloadAsync(() => window.Page.GetByRole(AriaRole.Link, new() { Name = "Save a copy" }).ClickAsync());
        string archive = Path.Combine(empty.Folder, "photo.zip");
        await download.SaveAsAsync(archive);
        Assert.Equal(Pictures(await prepared.ArchiveAsync(empty.Folder)) + 1, Pictures(archive));
        await ProgramCommand.RunAsync("import", archive, "--db", Path.Combine(empty.Folder, "of-the-phone.db"));
        window.AssertQuiet();
    }

    [Fact]
    public async Task EveryPage_OnAPhone_CanBeSeenAndTappedByAnyone()
    {
        await using BenchWindow window = await FilledAsync();
        await window.LoseNetAsync();
        List<string> wrong = [];
        foreach (PageToSee page in PageList.All.DistinctBy(p => p.Route).Append(new("here", "/settings/pocket", _ => "/settings/pocket")))
        {
            await window.GoAsync(page.Address(prepared.Workshop));
            await Expect(window.Page.Locator("h1")).ToBeVisibleAsync();
            // The pages are those of the server, which are looked at one by one; here it is links, pictures and what the phone adds.
            if (LookedAt.Contains(page.Name))
            {
                await Axe.BringAsync(window.Page);
                wrong.AddRange((await EveryPageTests.FaultsAsync(window.Page, $"pocket-{page.Name}", Screen.Phone)).Select(f => $"{page.Name}: {f}"));
            }
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
        window.AssertQuiet();
    }

    /// <summary>A window on a bench in the browser into which the prepared one was imported.</summary>
    private async Task<BenchWindow> FilledAsync()
    {
        BenchWindow window = await chromium.OpenAsync(empty.Address, Screen.Phone, isPocket: true);
        await window.GoAsync("/settings/copies");
        await window.Page.Locator("#file").SetInputFilesAsync(await prepared.ArchiveAsync(empty.Folder));
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Import archive" }).ClickAsync();
        await Expect(window.Page.GetByText("The archive is imported.")).ToBeVisibleAsync();
        return window;
    }

    private static int Pictures(string archive) =>
        int.Parse(Files(archive).Single(f => f.StartsWith("pictures.jsonl ", StringComparison.Ordinal)).Split(' ')[1], System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>The files of an archive with their checksums, as its manifest has them.</summary>
    private static IEnumerable<string> Files(string archive)
    {
        using ZipArchive zip = ZipFile.OpenRead(archive);
        using Stream manifest = zip.GetEntry("manifest.json")!.Open();
        return [.. JsonNode.Parse(manifest)!["files"]!.AsArray().Select(f => $"{f!["name"]} {f["rows"]} {f["sha256"]}")];
    }
}
