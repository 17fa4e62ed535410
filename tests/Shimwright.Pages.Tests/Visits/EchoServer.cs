using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Shimwright.Bench.Devices;
using Shimwright.Pages.Visits;
using Shimwright.Web.Requests;

namespace Shimwright.Pages.Tests.Visits;

/// <summary>The same page twice: by the framework's own server, and by a visit without one.</summary>
internal sealed class EchoServer : IAsyncDisposable
{
    private readonly WebApplication _app;
    private readonly HttpClient _client;
    private readonly ServiceProvider _services;

    private EchoServer(WebApplication app)
    {
        _app = app;
        _client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = new Uri(app.Urls.First()) };
        _services = new ServiceCollection()
            .AddPageVisits(new(typeof(EchoDocument), typeof(EchoNothingPage), EchoNothingPage.Address, EchoErrorPage.Address))
            .BuildServiceProvider(validateScopes: true);
    }

    public static async Task<EchoServer> StartAsync()
    {
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder();
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        builder.WebHost.ConfigureKestrel(k => k.Listen(IPAddress.Loopback, 0));
        builder.Services.AddRazorComponents();
        builder.Services.AddAntiforgery();
        builder.Services.AddHttpContextAccessor();
        builder.Services.AddScoped<IVisit, EchoVisit>();
        WebApplication app = builder.Build();
        app.UseStatusCodePagesWithReExecute(EchoErrorPage.Address, "?code={0}", createScopeForStatusCodePages: true);
        app.Use(ErrorPages.Fetch);
        app.UseAntiforgery();
        app.MapRazorComponents<EchoDocument>().DisableAntiforgery();
        await app.StartAsync();
        return new(app);
    }

    /// <summary>What the server answers: status, where to, body.</summary>
    public async Task<Ending> ServedAsync(string path, HttpContent? form = null)
    {
        using HttpRequestMessage request = new(form is null ? HttpMethod.Get : HttpMethod.Post, new Uri(path, UriKind.Relative)) { Content = form };
        using HttpResponseMessage answer = await _client.SendAsync(request, TestContext.Current.CancellationToken);
        string html = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        return Ending.Of(answer, html);
    }

    /// <summary>What a visit answers, with the status that a server would give it.</summary>
    public async Task<Ending> VisitedAsync(string path, SentForm? form = null)
    {
        VisitAnswer answer = await _services.GetRequiredService<PageVisits>().VisitAsync(new(new Uri(_client.BaseAddress!, path), "phone", form));
        return Ending.Of(answer);
    }

    public async ValueTask DisposeAsync()
    {
        _client.Dispose();
        await _services.DisposeAsync();
        await _app.DisposeAsync();
    }

    private sealed class EchoVisit(IHttpContextAccessor http) : IVisit
    {
        public string Device => "phone";

        public bool MayLeaveOut => HttpMethods.IsPost(http.HttpContext!.Request.Method);

        public CancellationToken Left => http.HttpContext!.RequestAborted;

        public string? DatabaseAway => null;

        public bool WasSent => false;

        public bool IsUnreadable => false;

        public bool IsGone => false;

        public DeviceRole? Role => DeviceRole.Owner;

        public void Refuse() => http.HttpContext!.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;

        public void Conflict() => http.HttpContext!.Response.StatusCode = StatusCodes.Status409Conflict;
    }
}
