using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components.Forms.Mapping;
using Microsoft.Extensions.DependencyInjection;
using Shimwright.Bench;
using Shimwright.Pages.Tests.Visits;
using Shimwright.Pages.Visits;
using Shimwright.Storage;
using Shimwright.Testing.Workshop;
using Shimwright.Web.Hosting;

namespace Shimwright.Pages.Tests.Served;

/// <summary>One of the two ways to a bench's pages.</summary>
/// <param name="workshop">What is on the bench.</param>
internal abstract class Side(FullWorkshop workshop) : IAsyncDisposable
{
    /// <summary>The device on which the person works.</summary>
    protected const string Device = "0123456789abcdef0123456789abcdef";

    /// <summary>What is on the bench.</summary>
    public FullWorkshop Workshop { get; } = workshop;

    /// <summary>Asks for a page, or sends a form.</summary>
    /// <returns>How it ended, and the page as it came.</returns>
    public abstract Task<(Ending Ending, string Html)> GoAsync(string path, FilledForm? form = null);

    public abstract ValueTask DisposeAsync();
}

/// <summary>The pages as the real server sends them.</summary>
internal sealed class ServedSide : Side
{
    private readonly WebApplication _server;
    private readonly HttpClient _client;

    private ServedSide(FullWorkshop workshop, WebApplication server, string bench)
        : base(workshop)
    {
        _server = server;
        Address = new(server.Urls.First());
        CookieContainer cookies = new();
        cookies.Add(Address, new Cookie($"shimwright-device-{bench}", Device));
        // What pays next is left out on both sides: the same on every page, and slow to work out.
        cookies.Add(Address, new Cookie("script", "1"));
        _client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = cookies }) { BaseAddress = Address };
    }

    public Uri Address { get; }

    public static async Task<ServedSide> StartAsync(BenchDatabase bench, FullWorkshop workshop, TimeProvider time)
    {
        WebApplication server = BenchServer.Build(new(bench, 0, null, time));
        await server.StartAsync();
        return new(workshop, server, bench.Id);
    }

    public override async Task<(Ending Ending, string Html)> GoAsync(string path, FilledForm? form = null)
    {
        using HttpRequestMessage request = new(form is null ? HttpMethod.Get : HttpMethod.Post, new Uri(path, UriKind.Relative)) { Content = form?.ToContent() };
        using HttpResponseMessage answer = await _client.SendAsync(request, TestContext.Current.CancellationToken);
        string html = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        return (Ending.Of(answer, html), html);
    }

    public override ValueTask DisposeAsync()
    {
        _client.Dispose();
        return _server.DisposeAsync();
    }
}

/// <summary>The pages as visits make them.</summary>
internal sealed class VisitedSide(FullWorkshop workshop, IBench bench, TimeProvider time, Uri address, ReadForms forms) : Side(workshop)
{
    private readonly ServiceProvider _services = new ServiceCollection().AddSingleton(bench).AddSingleton(time).AddVisitedBenchPages(BenchServer.MorePages(hasNews: false))
        .AddScoped<IFormValueMapper>(s => forms.Over(s.GetRequiredService<VisitRequest>())).BuildServiceProvider();

    public override async Task<(Ending Ending, string Html)> GoAsync(string path, FilledForm? form = null)
    {
        SentForm? sent = form is null ? null : new(form.Fields, form.Files);
        VisitAnswer answer = await _services.GetRequiredService<PageVisits>().VisitAsync(new(new Uri(address, path), Device, sent, TestContext.Current.CancellationToken) { FetchesParts = true });
        return (Ending.Of(answer), answer.Html);
    }

    public override ValueTask DisposeAsync() => _services.DisposeAsync();
}
