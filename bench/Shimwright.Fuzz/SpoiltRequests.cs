using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Shimwright.Bench.InMemory;
using Shimwright.Jobs.Tests.Fuzz;
using Shimwright.Web.Hosting;

namespace Shimwright.Fuzz;

/// <summary>Spoilt bodies for the API, and forms with spoilt fields, sent to a server in this program over a bench in memory.</summary>
internal sealed class SpoiltRequests : IAsyncDisposable
{
    private const int MostForms = 40, MostPages = 2000, MostJobs = 30;

    private static readonly string[] Computed = ["estimate", "plan", "next", "verdict", "stops", "forecast"];

    private static readonly string[] Facts =
    [
        """{"action":"6f0f8b0e-0000-4000-8000-000000000001","seen":0,"facts":[{"fact":"blade tried","part":"check","valve":"I1","blade":0.13,"leaves":1,"feel":"light"}]}""",
        """{"action":"6f0f8b0e-0000-4000-8000-000000000002","seen":0,"facts":[{"fact":"thickness found","valve":"I1","thickness":2.5,"by":"micrometer"}]}""",
        """{"action":"6f0f8b0e-0000-4000-8000-000000000003","seen":0,"facts":[{"fact":"temperature stated","temperature":40}]}""",
    ];

    private readonly JobMutator _mutator;
    private readonly SpoiltTables _text;
    private readonly Random _random;
    private readonly WebApplication _app;
    private readonly HttpClient _client;
    private readonly List<string> _jobs = [];
    private readonly List<string> _pages = ["/", "/engines", "/engines/new", "/drawer", "/drawer/take-in", "/drawer/orders", "/drawer/kits", "/drawer/marks", "/due", "/settings", "/feel", "/timing"];
    private readonly List<PageForm> _forms = [];

    private SpoiltRequests(int seed, WebApplication app)
    {
        (_mutator, _text, _random, _app) = (new JobMutator(seed), new SpoiltTables(seed), new Random(seed), app);
        _client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() }) { BaseAddress = new Uri(app.Urls.First()) };
        _client.DefaultRequestHeaders.Add("X-Shimwright-Device", "fuzz");
    }

    public static async Task<SpoiltRequests> StartAsync(int seed)
    {
        WebApplication app = BenchServer.Build(new(new MemoryBench(TimeProvider.System), 0, null, TimeProvider.System));
        await app.StartAsync();
        var requests = new SpoiltRequests(seed, app);
        foreach (string job in Demos.Jobs)
        {
            using HttpResponseMessage taken = await requests._client.PostAsync(new Uri("/api/v1/jobs/file", UriKind.Relative), Json(Encoding.UTF8.GetBytes(job)));
            requests.Remember(await taken.Content.ReadAsStringAsync());
        }

        return requests;
    }

    public async ValueTask DisposeAsync()
    {
        _client.Dispose();
        await _app.DisposeAsync();
    }

    public SpoiltInput Api()
    {
        if (_jobs.Count > 0 && _random.Next(3) == 0)
        {
            return Send($"/api/v1/jobs/{_jobs[_random.Next(_jobs.Count)]}/facts", _mutator.Spoil(Facts[_random.Next(Facts.Length)]));
        }

        byte[] body = _mutator.Spoil(Demos.Jobs[_random.Next(Demos.Jobs.Count)]);
        bool keeps = _jobs.Count < MostJobs && _random.Next(20) == 0;
        return Send(keeps ? "/api/v1/jobs/file" : $"/api/v1/{Computed[_random.Next(Computed.Length)]}", body);
    }

    /// <summary>A form of some page with a few of its fields spoilt.</summary>
    public SpoiltInput Form()
    {
        if (_forms.Count == 0)
        {
            string page = _pages[_random.Next(_pages.Count)];
            return new($"get {page}", [], () => FetchAsync(page));
        }

        int at = _random.Next(_forms.Count);
        PageForm form = _forms[at];
        _forms.RemoveAt(at);
        KeyValuePair<string, string>[] fields = [.. form.Fields.Select(f => f.Key.StartsWith("__", StringComparison.Ordinal) || f.Key == "_handler" || _random.Next(3) > 0 ? f : new(f.Key, Spoilt(f.Value)))];
        byte[] body = Encoding.UTF8.GetBytes(string.Join("&", fields.Select(f => $"{Uri.EscapeDataString(f.Key)}={Uri.EscapeDataString(f.Value)}")));
        return new($"{(form.IsGet ? "get" : "post")} {form.Action}", body, async () =>
        {
            using HttpContent content = form.IsGet ? new ByteArrayContent([]) : new ByteArrayContent(body);
            content.Headers.ContentType = new MediaTypeHeaderValue("application/x-www-form-urlencoded");
            using HttpResponseMessage answer = form.IsGet
                ? await _client.GetAsync(new Uri($"{form.Action.Split('?')[0]}?{Encoding.UTF8.GetString(body)}", UriKind.RelativeOrAbsolute))
                : await _client.PostAsync(new Uri(form.Action, UriKind.RelativeOrAbsolute), content);
            Judge(answer);
        });
    }

    private string Spoilt(string value) => _random.Next(3) == 0 ? "" : new string([.. Encoding.UTF8.GetString(_text.Spoil(value + " 0.1")).Where(c => c is not '\0' && !char.IsSurrogate(c))]);

    private SpoiltInput Send(string address, byte[] body) => new(address, body, async () =>
    {
        using HttpContent content = Json(body);
        using HttpResponseMessage answer = await _client.PostAsync(new Uri(address, UriKind.Relative), content);
        Judge(answer);
        Remember(await answer.Content.ReadAsStringAsync());
    });

    private async Task FetchAsync(string page)
    {
        using HttpResponseMessage answer = await _client.GetAsync(new Uri(page, UriKind.Relative));
        Judge(answer);
        string html = await answer.Content.ReadAsStringAsync();
        _forms.AddRange(PageForms.In(page, html).Take(MostForms));
        foreach (string link in PageForms.Links(html).Where(l => _pages.Count < MostPages && !_pages.Contains(l)))
        {
            _pages.Add(link);
        }
    }

    private void Remember(string answer)
    {
        if (answer.StartsWith('{') && JsonNode.Parse(answer) is JsonObject made && made["id"]?.ToString() is { } id && made["engine"] is not null)
        {
            _jobs.Add(id);
            _pages.AddRange(((string[])["measure", "depth", "shims", "plan", "fit", "recheck", "close"]).Select(p => $"/jobs/{id}/{p}"));
        }
    }

    private static void Judge(HttpResponseMessage answer)
    {
        if ((int)answer.StatusCode >= 500)
        {
            throw new InvalidOperationException($"{answer.RequestMessage!.Method} {answer.RequestMessage.RequestUri}: {(int)answer.StatusCode}");
        }
    }

    private static ByteArrayContent Json(byte[] body)
    {
        var content = new ByteArrayContent(body);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        return content;
    }
}
