using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Microsoft.AspNetCore.Components.Forms.Mapping;
using Microsoft.AspNetCore.Components.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.JSInterop;

namespace Shimwright.Pages.Visits;

/// <summary>What visits to pages need that a server would bring otherwise.</summary>
public static class VisitServices
{
    /// <summary>Adds them.</summary>
    /// <param name="services">The services.</param>
    /// <param name="pages">The pages by which a visit is answered.</param>
    /// <returns>The services.</returns>
    public static IServiceCollection AddPageVisits(this IServiceCollection services, VisitPages pages)
    {
        ArgumentNullException.ThrowIfNull(services);
        services.TryAddSingleton<ILoggerFactory>(NullLoggerFactory.Instance);
        services.AddSingleton(pages);
        services.AddSingleton<PageVisits>();
        services.AddScoped<VisitEntry>();
        services.AddScoped(s => s.GetRequiredService<VisitEntry>().Request ?? throw new InvalidOperationException("There is no visit."));
        services.AddScoped<LocalVisit>();
        services.AddScoped<IVisit>(s => s.GetRequiredService<LocalVisit>());
        services.AddScoped<VisitNavigation>();
        services.AddScoped<NavigationManager>(s => s.GetRequiredService<VisitNavigation>());
        services.AddScoped<INavigationInterception>(s => s.GetRequiredService<VisitNavigation>());
        services.AddScoped<IScrollToLocationHash>(s => s.GetRequiredService<VisitNavigation>());
        services.AddScoped<IFormValueMapper, FormMapper>();
        services.AddScoped<AntiforgeryStateProvider, NoToken>();
        services.AddScoped<IJSRuntime, NoScripts>();
        services.AddSupplyValueFromFormProvider();
        services.AddSupplyValueFromQueryProvider();
        return services;
    }
}

/// <summary>Where a visit is handed to its services.</summary>
internal sealed class VisitEntry
{
    public VisitRequest? Request { get; set; }
}
