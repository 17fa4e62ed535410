using System.Globalization;
using Microsoft.AspNetCore.Components;

namespace Shimwright.Pages.Jobs.Readings;

/// <summary>What the two pages do alike on which valves are read: which valve is selected, and where a form leads.</summary>
public abstract class ReadingPage : JobPage
{
    private const double SameBlade = 1e-6;

    /// <summary>The valve that was asked for; it may be none of the engine's.</summary>
    [SupplyParameterFromQuery(Name = "valve")]
    protected string? Selected { get; set; }

    /// <summary>The blade that was asked for with the valve; it may be none of the set's.</summary>
    [SupplyParameterFromQuery(Name = "blade")]
    protected string? Blade { get; set; }

    /// <summary>The last part of the page's address.</summary>
    protected abstract string Page { get; }

    /// <summary>The valve with the blade that was asked for instead of the one that would be suggested.</summary>
    private protected RoundValve WithAsked(RoundValve valve) =>
        double.TryParse(Blade, CultureInfo.InvariantCulture, out double asked)
        && Answer.Job.Blades.FirstOrDefault(b => Math.Abs(b - asked) < SameBlade) is > 0 and var blade
            ? valve with { Blade = blade }
            : valve;

    private protected string Link(RoundValve valve) => $"/jobs/{Id}/{Page}?valve={Uri.EscapeDataString(valve.Valve.Id)}";

    /// <summary>The same, at the place of the page where the valve is: on a phone that is below the head.</summary>
    private protected string LinkTo(RoundValve valve) => Link(valve) + "#valve";

    /// <summary>Adds what a form brought, or says what is wrong with it; the page stays at the valve.</summary>
    private protected Task SendAsync(SentFacts sent, RoundValve valve) => SendAsync(sent, LinkTo(valve));
}
