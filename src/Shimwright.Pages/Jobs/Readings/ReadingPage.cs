using System.Globalization;
using Microsoft.AspNetCore.Components;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Pages.Jobs.Advising;

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

    /// <summary>
    /// The valve with the blade that the line on top names there, so that page and line do not disagree; else with the one that was asked
    /// for. A line that the device fetches later is not worked out for this: its link asks for its blade.
    /// </summary>
    private protected RoundValve AsAdvised(RoundValve valve, bool hasLine)
    {
        NextRow? line = hasLine && !Visit.MayLeaveOut && Answer.Next is { } next ? NextLinks.InOrder(Sheet, next).FirstOrDefault() : null;
        double? named = line is { Do: "blade", Leaves: 1 } && line.Valve == valve.Valve.Id ? line.Blades[0]
            : double.TryParse(Blade, CultureInfo.InvariantCulture, out double asked) ? asked
            : null;
        return Answer.Job.Blades.FirstOrDefault(b => named is { } n && Math.Abs(b - n) < SameBlade) is > 0 and var blade && blade != valve.Blade
            ? valve with { Blade = blade, IsAdvised = true }
            : valve;
    }

    private protected string Link(RoundValve valve) => $"/jobs/{Id}/{Page}?valve={Uri.EscapeDataString(valve.Valve.Id)}";

    /// <summary>The same, at the place of the page where the valve is: on a phone that is below the head.</summary>
    private protected string LinkTo(RoundValve valve) => Link(valve) + "#valve";

    /// <summary>Adds what a form brought, or says what is wrong with it; the page stays at the valve.</summary>
    private protected Task SendAsync(SentFacts sent, RoundValve valve) => SendAsync(sent, LinkTo(valve));

    /// <summary>Takes a reading back and goes to its valve, which is to be felt again.</summary>
    private protected Task TakeBackAsync(SentFacts sent)
    {
        string? valve = sent.Facts is [Undone { Entry: { } number }] && Sheet.Entries.FirstOrDefault(e => e.Number == number)?.Fact is ReadingFact reading
            ? reading.Valve
            : Selected;
        return SendAsync(sent, $"/jobs/{Id}/{Page}?valve={Uri.EscapeDataString(valve ?? "")}#valve");
    }
}
