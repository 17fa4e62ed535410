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
    /// <returns>The services.</returns>
    public static IServiceCollection AddBenchPages(this IServiceCollection services) => services.AddSingleton<JobAnswers>().AddSingleton<LastTheme>();

    /// <summary>Adds what they need, and <see cref="PageVisits"/>, where there is no server.</summary>
    /// <param name="services">The services.</param>
    /// <returns>The services.</returns>
    public static IServiceCollection AddVisitedBenchPages(this IServiceCollection services) =>
        services.AddBenchPages().AddPageVisits(new(typeof(Document), typeof(NotFoundPage), "/not-found", "/error"));
}
