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

    /// <summary>The valve that was settled just before, where this one came by itself.</summary>
    [SupplyParameterFromQuery(Name = "after")]
    protected string? Before { get; set; }

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

    /// <summary>The valve that was settled just before and left by itself, or null.</summary>
    private protected RoundValve? KeptOf(ReadingRound round) => round.Valves.FirstOrDefault(v => v.Valve.Id == Before && v.IsRead);

    /// <summary>Adds what a form brought, or says what is wrong with it; the page stays at the valve.</summary>
    private protected Task SendAsync(SentFacts sent, RoundValve valve) => SendAsync(sent, Link(valve));

    /// <summary>Adds a trial; where it settled the valve the next one comes by itself, unless the bench does not want that.</summary>
    private protected async Task TapAsync(SentFacts sent, RoundValve valve, Func<ReadingRound> look)
    {
        if (sent.Problems.Count > 0)
        {
            Refuse(sent.Problems);
            return;
        }

        if (!await SaveAsync(sent.Form, sent.Facts))
        {
            return;
        }

        ReadingRound round = look();
        RoundValve read = round.Select(valve.Valve.Id);
        Navigation.NavigateTo(Settings.Settings.NextComes && read.IsDone && round.Left > 0 && round.After(read) is { } next
            ? $"{Link(next)}&after={Uri.EscapeDataString(read.Valve.Id)}"
            : Link(valve));
    }

    /// <summary>Takes a reading back and goes to its valve, which is to be felt again.</summary>
    private protected Task TakeBackAsync(SentFacts sent)
    {
        string? valve = sent.Facts is [Undone { Entry: { } number }] && Sheet.Entries.FirstOrDefault(e => e.Number == number)?.Fact is ReadingFact reading
            ? reading.Valve
            : Selected;
        return SendAsync(sent, $"/jobs/{Id}/{Page}?valve={Uri.EscapeDataString(valve ?? "")}");
    }
}
