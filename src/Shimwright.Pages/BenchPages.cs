using Microsoft.Extensions.DependencyInjection;
using Shimwright.Bench.Jobs;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Visits;

namespace Shimwright.Pages;

/// <summary>What the pages of a bench need of whoever shows them: beside this, the bench itself and a clock.</summary>
public static class BenchPages
{
    /// <summary>Adds what they need everywhere.</summary>
    /// <param name="services">The services.</param>
    /// <param name="more">Pages that are added to the bench's own, or null.</param>
    /// <returns>The services.</returns>
    public static IServiceCollection AddBenchPages(this IServiceCollection services, HostPages? more = null) =>
        services.AddSingleton<JobAnswers>().AddSingleton<LastTheme>().AddSingleton(more ?? HostPages.None);

    /// <summary>Adds what they need, and <see cref="PageVisits"/>, where there is no server.</summary>
    /// <param name="services">The services.</param>
    /// <param name="more">Pages that are added to the bench's own, or null.</param>
    /// <returns>The services.</returns>
    public static IServiceCollection AddVisitedBenchPages(this IServiceCollection services, HostPages? more = null) =>
        services.AddBenchPages(more).AddPageVisits(new(typeof(Document), typeof(NotFoundPage), "/not-found", "/error"));
}
