using System.Collections.Concurrent;
using System.Text.RegularExpressions;

namespace Shimwright.Browser.Running;

/// <summary>A window on a bench that notes whatever a page must not do: ask another machine, break its own policy, write errors.</summary>
internal sealed class BenchWindow : IAsyncDisposable
{
    /// <summary>How long something may take to appear before it counts as missing, ms; far beyond what a busy machine needs.</summary>
    public const int LongestWait = 60_000;

    /// <summary>Where a bench offers the one that runs in the browser itself.</summary>
    private const string Pocket = "/pocket/";

    /// <summary>What the page says of itself: its state, what it was asked for last, its headings and what it warns of.</summary>
    private const string Shown =
        """
        () => JSON.stringify({
          root: document.documentElement.className, data: { ...document.documentElement.dataset }, hidden: document.hidden,
          says: [...document.querySelectorAll("h1, h2, [role=alert], .offline, .pressed")].map(e => e.textContent.trim().slice(0, 200)),
        })
        """;

    private readonly IBrowserContext _context;
    private readonly ConcurrentQueue<string> _faults = [];

    private BenchWindow(IBrowserContext context, IPage page)
    {
        _context = context;
        Page = page;
    }

    public IPage Page { get; }

    /// <summary>Whether the window is on the bench that runs in the browser itself: its addresses stand behind a hash.</summary>
    public bool IsPocket { get; init; }

    public static async Task<BenchWindow> OnAsync(IBrowserContext context, Uri bench, bool isPocket = false)
    {
        IPage page = await context.NewPageAsync();
        page.SetDefaultTimeout(LongestWait);
        var window = new BenchWindow(context, page) { IsPocket = isPocket };
        context.Request += (_, request) => window.Note(
            request.Url.Replace("blob:", "", StringComparison.Ordinal) is var url && new Uri(url) is var to && to.GetLeftPart(UriPartial.Authority) == bench.GetLeftPart(UriPartial.Authority)
                ? null
                : $"request to another origin: {request.Method} {request.Url}");
        context.Response += (_, response) => window.Note(response.Status >= 500 ? $"answer {response.Status} from {response.Url}" : null);
        context.Console += (_, message) => window.Note(IsFault(message) ? $"console {message.Type}: {message.Text}" : null);
        context.WebError += (_, error) => window.Note($"script error: {error.Error}");
        return window;
    }

    /// <summary>The address on the bench that is shown: path and query.</summary>
    public string Address => new Uri(Page.Url) is var at && IsPocket ? at.Fragment.TrimStart('#').Split('#')[0] : at.PathAndQuery;

    /// <summary>Goes to a page and gives back its status.</summary>
    public async Task<int> GoAsync(string address)
    {
        IResponse? response = await Page.GotoAsync(IsPocket ? $"{Pocket}#{address}" : address);
        if (IsPocket)
        {
            await Assertions.Expect(Page.Locator("html:not(.busy)")).ToHaveAttributeAsync("data-asked", address);
        }

        return response?.Status ?? 200;
    }

    /// <summary>Waits for a page whose address has one of these parts; where none comes, says what is shown instead.</summary>
    public async Task ComesToAsync(params string[] parts)
    {
        try
        {
            // The address is looked at again and again: an event that comes between a look at it and listening would be missed.
            await Assertions.Expect(Page).ToHaveURLAsync(new Regex(string.Join('|', parts.Select(Regex.Escape))));
        }
        catch (PlaywrightException fault)
        {
            throw new TimeoutException($"{fault.Message}\nShown: {await Page.EvaluateAsync<string>(Shown)}\nNoted: {string.Join("; ", _faults)}", fault);
        }
    }

    /// <summary>Lays the page that is open out anew, as on another screen.</summary>
    public async Task TurnIntoAsync(Screen screen)
    {
        await Page.SetViewportSizeAsync(screen.Width, screen.Height);
        await Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = screen.Dark ? ColorScheme.Dark : ColorScheme.Light });
        await Page.EvaluateAsync("sun => { document.documentElement.dataset.theme = sun ? 'sun' : 'system'; }", screen.Sun);
    }

    /// <summary>The bench in the browser is all there; from here on without a net.</summary>
    public async Task LoseNetAsync()
    {
        await Page.EvaluateAsync("async () => { await navigator.serviceWorker.ready; }");
        await _context.SetOfflineAsync(true);
        await Page.ReloadAsync();
        await Assertions.Expect(Page.Locator("html:not(.busy) nav").First).ToBeAttachedAsync();
    }

    /// <summary>Gives the net, or takes it.</summary>
    public Task NetAsync(bool isThere) => _context.SetOfflineAsync(!isThere);

    /// <summary>Fails where the window has noted anything.</summary>
    public void AssertQuiet() => Assert.True(_faults.IsEmpty, string.Join("\n", _faults));

    public async ValueTask DisposeAsync() => await _context.DisposeAsync();

    /// <summary>Errors and warnings; a page that refuses a form on purpose answers 422, of which the browser makes an error.</summary>
    private static bool IsFault(IConsoleMessage message) =>
        message.Type is "error" or "warning" && !message.Text.Contains("422 (Unprocessable", StringComparison.Ordinal);

    private void Note(string? fault)
    {
        if (fault is not null)
        {
            _faults.Enqueue(fault);
        }
    }
}
