using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.HostFiltering;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Shimwright.Bench;
using Shimwright.Pages;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Visits;
using Shimwright.Storage;
using Shimwright.Web.Api;
using Shimwright.Web.Door;
using Shimwright.Web.Files;
using Shimwright.Web.Lan;
using Shimwright.Web.News;
using Shimwright.Web.PhoneBench;
using Shimwright.Web.Requests;
using Shimwright.Web.Running;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.Hosting;

/// <summary>What the bench's server is started with.</summary>
/// <param name="Bench">The bench, prepared.</param>
/// <param name="Port">The port on 127.0.0.1; 0 for any that is free.</param>
/// <param name="KeyFolder">Where the keys of forms are kept, so that a page outlives a restart; null for none.</param>
/// <param name="Time">The clock.</param>
/// <param name="Turns">How much is worked out at once; null for what is usual.</param>
/// <param name="Shop">How it is open to the devices of a workshop; null where it is open on this machine only.</param>
/// <param name="Running">What watches over it and where it listens; null for a terminal on this machine.</param>
public sealed record BenchServerOptions(
    IBench Bench, int Port, string? KeyFolder, TimeProvider Time, ComputeTurns? Turns = null, OpenShop? Shop = null, ServerRunning? Running = null);

/// <summary>The bench's server: pages, API and files, on this machine only or for the devices of a workshop.</summary>
public static class BenchServer
{
    /// <summary>Builds the server; it is not started yet.</summary>
    /// <param name="options">What it is started with.</param>
    /// <returns>The application.</returns>
    public static WebApplication Build(BenchServerOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        // Empty: the usual builder takes addresses, endpoints and whole assemblies from the environment, and the program would be heard elsewhere than it says.
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions
        {
            EnvironmentName = Environments.Production,
            // Where the program lies, wherever it was started: its own files are served from there.
            ContentRootPath = AppContext.BaseDirectory,
            WebRootPath = Path.Combine(AppContext.BaseDirectory, "wwwroot"),
        });
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = BodyLimit.Usual;
            if (options.Shop is { } shop)
            {
                shop.Listen(kestrel, options.Port);
            }
            else
            {
                kestrel.Listen((options.Running ?? ServerRunning.Usual).Address, options.Port);
            }
        });
        if (options.Shop is { Certificate: not null })
        {
            builder.WebHost.UseKestrelHttpsConfiguration();
        }

        builder.WebHost.UseStaticWebAssets();
        builder.Logging.ClearProviders().AddSimpleConsole(c => c.SingleLine = true).SetMinimumLevel(LogLevel.Warning)
            // Says that the keys of forms lie in the file readable by whoever can read the folder, which is so on purpose: so does the database.
            .AddFilter("Microsoft.AspNetCore.DataProtection.KeyManagement.XmlKeyManager", LogLevel.Error)
            // What keeps the server from starting is said by whoever starts it, in one line.
            .AddFilter("Microsoft.Extensions.Hosting.Internal.Host", LogLevel.None)
            // A form that is refused, a device that is not let in: said to whoever sent it, and where it matters in the log of the door.
            .AddFilter("Microsoft.AspNetCore.Authentication", LogLevel.Error)
            .AddFilter(SecurityLog.Category, LogLevel.Information);
        builder.Services.AddRunning(options.Running ?? ServerRunning.Usual);
        AddServices(builder.Services, options);
        WebApplication app = builder.Build();
        UsePipeline(app);
        return app;
    }

    /// <summary>The pages that only a server has.</summary>
    /// <param name="hasNews">Whether an open page of a job is told what others add.</param>
    /// <returns>The pages.</returns>
    internal static HostPages MorePages(bool hasNews) => new([typeof(App).Assembly], [("/settings/devices", "Devices", true), ("/settings/phone", "Bench on a phone", false)], hasNews);

    /// <summary>Phones reach a shop by its best name, whatever it was asked by. Behind a proxy, or in a container, only whoever set it up knows more than was asked by.</summary>
    private static BenchReach ReachOf(OpenShop? shop, Uri asked) =>
        BenchReach.Asked(shop is { Certificate: not null } ? new Uri(LanNames.Link(shop.Names.Best, asked.Port)) : asked);

    private static void AddServices(IServiceCollection services, BenchServerOptions options)
    {
        services.AddSingleton(options.Bench);
        services.AddSingleton(options.Time);
        services.AddSingleton(_ => options.Turns ?? ComputeTurns.Usual(options.Time));
        services.AddScoped<RequestVisit>();
        services.AddScoped<IVisit>(s => s.GetRequiredService<RequestVisit>());
        services.AddBenchPages(MorePages(hasNews: options.Shop is not null || options.Running is { InContainer: true }) with { Reach = asked => ReachOf(options.Shop, asked) });
        // Nobody knows who reaches a container's published port: there everybody has to be let in.
        bool isContainer = options.Running is { InContainer: true };
        services.AddDoor(new(options.Shop is not null || isContainer, isContainer || options.Shop is { IsLocked: true }));
        services.AddSingleton<RequestTraffic>();
        services.AddHostedService<ForecastKeeper>();
        services.AddHostedService<CopyKeeper>();
        services.AddHostedService<NewsKeeper>();
        services.AddRouting();
        services.AddRazorComponents();
        BenchCookies cookies = new(options.Bench);
        services.AddSingleton(cookies);
        services.AddAntiforgery(a =>
        {
            a.Cookie.Name = cookies.Forms;
            a.Cookie.SameSite = SameSiteMode.Strict;
        });
        services.Configure<HostFilteringOptions>(h =>
        {
            h.AllowedHosts = ["127.0.0.1", "localhost", "[::1]"];
            h.AllowEmptyHosts = false;
            h.IncludeFailureMessage = false;
        });
        options.Shop?.AddTo(services);
        services.Configure<FormOptions>(f => f.MultipartBodyLengthLimit = Shimwright.Jobs.JobFile.LargestBytes);
        services.AddProblemDetails();
        services.AddBenchApi();
        IDataProtectionBuilder keys = services.AddDataProtection().SetApplicationName("shimwright");
        if (options.Bench is BenchDatabase { File: null } server)
        {
            // Several servers on one database take each other's forms.
            server.KeepFormKeys(keys);
        }
        else if (options.KeyFolder is { } folder)
        {
            keys.PersistKeysToFileSystem(new DirectoryInfo(folder));
        }
    }

    private static void UsePipeline(WebApplication app)
    {
        app.Use(app.Services.GetRequiredService<RequestTraffic>().CountAsync);
        app.Services.GetService<OpenShop>()?.UseProxy(app);
        app.Use(SecurityHeaders.Add);
        app.UseHostFiltering();
        app.UseExceptionHandler(new ExceptionHandlerOptions
        {
            ExceptionHandlingPath = ErrorPages.Address,
            CreateScopeForErrors = true,
            // A fault is in the log, whoever answers it.
            SuppressDiagnosticsCallback = _ => false,
            StatusCodeSelector = fault => fault is BadHttpRequestException bad ? bad.StatusCode
                : BenchDatabase.WhyAway(fault) is null ? StatusCodes.Status500InternalServerError : StatusCodes.Status503ServiceUnavailable,
        });
        app.UseStatusCodePagesWithReExecute(ErrorPages.Address, "?code={0}", createScopeForStatusCodePages: true);
        app.Use(ErrorPages.Fetch);
        app.Use(ApiErrors.Describe);
        app.Use(BodyLimit.Check);
        app.UseDoor();
        app.Use(DeviceCookie.Name);
        app.UseAntiforgery();
        app.Use(app.Services.GetRequiredService<ComputeTurns>().TakeAsync);
        app.MapStaticAssets().ForAccess(AccessRules.Open);
        app.MapHealth();
        app.MapBenchApi();
        app.MapBenchFiles();
        app.MapDueCalendar();
        app.MapPocket();
        app.MapNews();
        RazorComponentsEndpointConventionBuilder pages = app.MapRazorComponents<App>().AddAdditionalAssemblies(typeof(Document).Assembly);
        pages.Add(BodyLimit.OfPage);
        pages.Add(AccessRequirement.OfPage);
    }
}
