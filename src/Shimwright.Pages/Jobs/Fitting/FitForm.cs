using System.Globalization;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs.Fitting;

/// <summary>What was done at a valve, as it is typed; it starts from the plan.</summary>
public sealed class FitForm : ActionForm
{
    public string? Valve { get; set; }

    /// <summary>All valves of a group as planned, instead of one; blank for every valve of the plan.</summary>
    public string? Group { get; set; }

    public string? From { get; set; }

    public string? FromBy { get; set; }

    public string? To { get; set; }

    public string? ToBy { get; set; }

    public string? Turns { get; set; }

    /// <summary>What was done or else what the plan says, ready to be confirmed.</summary>
    public static FitForm Of(FitValve valve, LengthStyle lengths)
    {
        ArgumentNullException.ThrowIfNull(valve);
        ArgumentNullException.ThrowIfNull(lengths);
        PlanRow? row = valve.Move?.Row;
        var fitted = valve.Done as ShimFitted;
        ThicknessRow? from = fitted?.From ?? row?.From;
        (double Thickness, string By)? to = fitted is not null ? (fitted.To.Thickness, fitted.To.By) : row?.To is { } planned ? (planned.Thickness, planned.By) : null;
        double? turns = (valve.Done as ScrewTurned)?.Turns ?? row?.Turns;
        return new()
        {
            Valve = valve.Valve,
            From = from is null ? null : lengths.Field(from.Thickness),
            FromBy = from?.By ?? "marked",
            To = to is { } t ? lengths.Field(t.Thickness) : null,
            ToBy = to?.By ?? "marked",
            Turns = turns?.ToString("0.######", CultureInfo.InvariantCulture),
        };
    }

    /// <summary>What was typed, as a fact; null, with problems, where some of it is none.</summary>
    public ChangeFact? Read(bool hasShims, LengthStyle lengths, List<JobProblem> problems)
    {
        ArgumentNullException.ThrowIfNull(lengths);
        ArgumentNullException.ThrowIfNull(problems);
        string valve = Valve ?? "";
        if (!hasShims)
        {
            return TypedNumber.Plain(Turns, $"{valve}, turns").Note(problems) is { } turns ? new ScrewTurned(valve, turns) : null;
        }

        double? from = lengths.Read(From, $"{valve}, came out").Note(problems);
        double? to = lengths.Read(To, $"{valve}, went in").Note(problems);
        return from is { } f && to is { } t ? new ShimFitted(valve, new(f, FromBy ?? ""), new(t, ToBy ?? "")) : null;
    }
}
