using System.Diagnostics;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Shimwright.Browser.Running;
using Shimwright.Testing;
using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Pocket;

/// <summary>What may befall a bench that lies in a browser: clear words, and nothing lost.</summary>
public sealed class PocketFailureTests(EmptyBench bench, Chromium chromium) : IClassFixture<EmptyBench>
{
    private const int Few = 3, Many = 200;

    [Fact]
    public async Task Store_ThatIsFull_IsSaidAndTheSameTapCountsOnceAfterwards()
    {
        await using BenchWindow window = await OpenAsync();
        await AddAsync(window.Page, 1);
        // The browser's own limit cannot be reached here, and its switch for it has no effect: its store is made to answer as a full one does.
        IWorker program = window.Page.Workers.Single(w => !w.Url.Contains("look", StringComparison.Ordinal));
        await program.EvaluateAsync<object?>("() => { self.put = IDBObjectStore.prototype.put; IDBObjectStore.prototype.put = () => { throw new DOMException('full', 'QuotaExceededError'); }; }");
        await FillAsync(window.Page, 1);
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Add shims" }).ClickAsync();
        await Expect(window.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("no room left");
        await program.EvaluateAsync<object?>("() => { IDBObjectStore.prototype.put = self.put; }");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Try again" }).ClickAsync();
        await Expect(window.Page.GetByText("2 shims, 1 sizes")).ToBeVisibleAsync();
        await window.Page.ReloadAsync();
        await Expect(window.Page.GetByText("2 shims, 1 sizes")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Store_ThatIsTakenAway_IsFilledAgain()
    {
        await using BenchWindow window = await OpenAsync();
        await AddAsync(window.Page, 4);
        await window.Page.EvaluateAsync("() => new Promise((done, fail) => { const gone = indexedDB.deleteDatabase('shimwright'); gone.onsuccess = () => done(); gone.onerror = () => fail(); })");
        await FillAsync(window.Page, 1);
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Add shims" }).ClickAsync();
        await Expect(window.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("threw its store away");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Try again" }).ClickAsync();
        await Expect(window.Page.GetByText("5 shims, 1 sizes")).ToBeVisibleAsync();
        await window.Page.ReloadAsync();
        await Expect(window.Page.GetByText("5 shims, 1 sizes")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Archive_OfANewerProgram_IsRefusedInWords()
    {
        await using BenchWindow window = await OpenAsync();
        string file = Path.Combine(bench.Folder, "newer.zip");
        await using (ZipArchive zip = await ZipFile.OpenAsync(file, ZipArchiveMode.Create, TestContext.Current.CancellationToken))
        {
            await using Stream manifest = await zip.CreateEntry("manifest.json").OpenAsync(TestContext.Current.CancellationToken);
            await manifest.WriteAsync(Encoding.UTF8.GetBytes("""{"format":"shimwright-bench","edition":99,"madeAt":"2026-01-01T00:00:00Z","files":[]}"""), TestContext.Current.CancellationToken);
        }

        await window.GoAsync("/settings/copies");
        await window.Page.Locator("#file").SetInputFilesAsync(file);
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Import archive" }).ClickAsync();
        await Expect(window.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("a newer Shimwright has written it");
    }

    [Fact]
    public async Task TwoPages_OfOneBrowser_SeeWhatTheOtherSaved()
    {
        await using BenchWindow window = await OpenAsync();
        await AddAsync(window.Page, 1);
        IPage second = await window.Page.Context.NewPageAsync();
        await second.GotoAsync("/pocket/#/drawer");
        await Expect(second.Locator("html")).ToHaveAttributeAsync("data-asked", "/drawer");
        await Expect(second.GetByText("1 shims, 1 sizes")).ToBeVisibleAsync();
        await AddAsync(second, 2);
        await AddAsync(window.Page, 4);
        await Expect(window.Page.GetByText("7 shims, 1 sizes")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Update_ThatIsHalfThere_LeavesTheOldOneAndAWholeOneIsOffered()
    {
        await using FolderHost host = await FolderHost.StartAsync();
        await using BenchWindow window = await chromium.OpenAsync(host.Address, Screen.Phone);
        await window.Page.GotoAsync("/");
        await window.Page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
        string list = Path.Combine(host.Folder, "files.js"), start = Path.Combine(host.Folder, "index.html");
        string before = await File.ReadAllTextAsync(list, TestContext.Current.CancellationToken);

        // Half: the list names a file that is not there.
        await File.WriteAllTextAsync(list, Next(before, "half").Replace("\"url\": \"store.js\"", "\"url\": \"store-2.js\"", StringComparison.Ordinal), TestContext.Current.CancellationToken);
        await AskForUpdateAsync(window.Page);
        await window.Page.Context.SetOfflineAsync(true);
        await window.Page.ReloadAsync();
        await Expect(window.Page.Locator("nav").First).ToBeVisibleAsync();
        await Expect(window.Page.GetByText("A newer Shimwright")).ToHaveCountAsync(0);
        await window.Page.Context.SetOfflineAsync(false);

        // Whole: another first page, and the list with its checksum.
        string old = Sum(start);
        await File.AppendAllTextAsync(start, "<!-- the next one -->", TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(list, Next(before, "next").Replace(old, Sum(start), StringComparison.Ordinal), TestContext.Current.CancellationToken);
        await AskForUpdateAsync(window.Page);
        await Expect(window.Page.GetByText("A newer Shimwright is ready.")).ToBeVisibleAsync();
        await window.Page.EvaluateAsync("() => { document.documentElement.classList.add('old'); }");
        await window.Page.GetByRole(AriaRole.Button, new() { Name = "Use it now" }).ClickAsync();
        await Expect(window.Page.Locator("html:not(.old)")).ToHaveAttributeAsync("data-asked", "/");
        await window.Page.Context.SetOfflineAsync(true);
        await window.Page.ReloadAsync();
        await Expect(window.Page.Locator("html")).ToHaveAttributeAsync("data-asked", "/");
        Assert.Contains("the next one", await window.Page.EvaluateAsync<string>("async () => (await fetch('index.html')).text()"), StringComparison.Ordinal);
    }

    /// <summary>The browser's processes are killed in the middle of taps: what a page has shown as saved is there.</summary>
    [Fact]
    [Long]
    public async Task Browser_KilledInTheMiddleOfTaps_LosesNothingItHadAcknowledged()
    {
        int acknowledged = 0, times = Effort.Cases(Few, Many);
        string folder = Directory.CreateTempSubdirectory("shimwright-phone-").FullName;
        try
        {
            for (int i = 0; i < times; i++)
            {
                await using IBrowserContext context = await chromium.OwnAsync(folder);
                IPage page = context.Pages[0];
                page.SetDefaultTimeout(BenchWindow.LongestWait);
                int shown = -1;
                TaskCompletionSource begun = new(TaskCreationOptions.RunContinuationsAsynchronously);
                await page.ExposeFunctionAsync("tell", (int count) =>
                {
                    shown = count;
                    begun.TrySetResult();
                });
                await page.GotoAsync(new Uri(bench.Address, "/pocket/#/drawer").ToString());
                await Expect(page.Locator("html")).ToHaveAttributeAsync("data-asked", "/drawer");
                int kept = await CountAsync(page);
                // One tap more than was shown may have been saved, and none less.
                Assert.InRange(kept, acknowledged, acknowledged + (i == 0 ? 0 : 1));
                Task taps = page.EvaluateAsync(Tapping);
                await begun.Task.WaitAsync(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken);
                await Task.Delay(100 + (i * 37 % 400), TestContext.Current.CancellationToken);
                Kill(folder);
                await taps.ContinueWith(_ => { }, TestContext.Current.CancellationToken, TaskContinuationOptions.None, TaskScheduler.Default);
                Assert.True(shown > kept, "Nothing was tapped.");
                acknowledged = shown;
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Adds one shim after the other, and tells each time how many the page shows.</summary>
    private const string Tapping =
        """
        async () => {
          const count = () => Number(/(\d+) shims,/.exec(document.body.innerText)?.[1] ?? 0);
          for (;;) {
            const before = count();
            for (const [name, value] of [["Diameter", "9.48 mm"], ["Thickness", "2.40 mm"], ["Count", "1"]]) { document.querySelector(`[name='PutIn.${name}']`).value = value; }
            document.querySelector("[name='PutIn.Count']").form.requestSubmit();
            while (count() === before) { await new Promise(done => setTimeout(done, 2)); }
            await window.tell(count());
          }
        }
        """;

    private async Task<BenchWindow> OpenAsync()
    {
        BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Phone, isPocket: true);
        await window.GoAsync("/drawer");
        return window;
    }

    private static async Task<int> CountAsync(IPage page) => await page.EvaluateAsync<int>(@"() => Number(/(\d+) shims,/.exec(document.body.innerText)?.[1] ?? 0)");

    private static async Task AddAsync(IPage page, int count)
    {
        int before = await CountAsync(page);
        await FillAsync(page, count);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add shims" }).ClickAsync();
        await Expect(page.Locator(".shelf")).Not.ToContainTextAsync($"{before} shims");
    }

    private static async Task FillAsync(IPage page, int count)
    {
        await page.GetByLabel("Diameter", new() { Exact = true }).FillAsync("9.48 mm");
        await page.GetByLabel("Thickness", new() { Exact = true }).FillAsync("2.40 mm");
        await page.GetByLabel("Quantity", new() { Exact = true }).FillAsync(count.ToString(System.Globalization.CultureInfo.InvariantCulture));
    }

    private static async Task AskForUpdateAsync(IPage page) => await page.EvaluateAsync(
        "async () => { const r = await navigator.serviceWorker.ready; await r.update().catch(() => {}); const w = r.installing; if (w) { await new Promise(done => w.addEventListener('statechange', done)); } }");

    private static string Next(string list, string version) => System.Text.RegularExpressions.Regex.Replace(list, "\"version\": \"[^\"]*\"", $"\"version\": \"{version}\"");

    private static string Sum(string file) => Convert.ToBase64String(SHA256.HashData(File.ReadAllBytes(file)));

    private static void Kill(string folder)
    {
        using var kill = Process.Start(new ProcessStartInfo("pkill", ["-9", "-f", folder]) { RedirectStandardError = true })!;
        kill.WaitForExit();
        Assert.Equal(0, kill.ExitCode);
    }
}
