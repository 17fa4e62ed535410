using Shimwright.Browser.Running;

[assembly: AssemblyFixture(typeof(Chromium))]

namespace Shimwright.Browser.Running;

/// <summary>The browser of the machine, one for all tests; each window has cookies and storage of its own.</summary>
public sealed class Chromium : IAsyncLifetime
{
    private static readonly string[] Arguments =
    [
        "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ];

    private static readonly string[] Names = ["chromium", "chromium-browser"];

    private IPlaywright? _playwright;
    private IBrowser? _browser;

    public async ValueTask InitializeAsync()
    {
        string path = Find();
        _playwright = await Playwright.CreateAsync();
        Assertions.SetDefaultExpectTimeout(BenchWindow.LongestWait);
        _browser = await _playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions { ExecutablePath = path, Args = Arguments });
    }

    /// <summary>Opens a browser of its own that keeps what it keeps in a folder, as a phone's does.</summary>
    internal Task<IBrowserContext> OwnAsync(string folder) => _playwright!.Chromium.LaunchPersistentContextAsync(
        folder, new BrowserTypeLaunchPersistentContextOptions { ExecutablePath = Find(), Args = Arguments, ViewportSize = new ViewportSize { Width = Screen.Phone.Width, Height = Screen.Phone.Height } });

    /// <summary>Opens a window on a bench.</summary>
    internal async Task<BenchWindow> OpenAsync(Uri bench, Screen screen, bool isPocket = false)
    {
        IBrowserContext context = await _browser!.NewContextAsync(new BrowserNewContextOptions
        {
            BaseURL = bench.ToString(),
            ViewportSize = new ViewportSize { Width = screen.Width, Height = screen.Height },
            ColorScheme = screen.Dark ? ColorScheme.Dark : ColorScheme.Light,
            JavaScriptEnabled = screen.Script,
            ReducedMotion = ReducedMotion.Reduce,
            Locale = "en-GB",
            // A bench that is open to a network has a certificate of its own.
            IgnoreHTTPSErrors = bench.Scheme == Uri.UriSchemeHttps,
            TimezoneId = "UTC",
        });
        return await BenchWindow.OnAsync(context, bench, isPocket);
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
    }

    private static string Find()
    {
        IEnumerable<string> folders = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries).Prepend("/usr/bin");
        string? found = Environment.GetEnvironmentVariable("SHIMWRIGHT_CHROMIUM") is { Length: > 0 } named
            ? named
            : folders.SelectMany(f => Names.Select(n => Path.Combine(f, n))).FirstOrDefault(File.Exists);
        return File.Exists(found)
            ? found
            : throw new FileNotFoundException(
                $"No Chromium at {found ?? "/usr/bin/chromium or in the PATH"}. eng/browser installs it; SHIMWRIGHT_CHROMIUM names one that lies elsewhere.");
    }
}
