using System.Globalization;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Wording;

namespace Shimwright.Pages.Jobs.Planning;

/// <summary>A plan in words for the bench.</summary>
internal static class PlanWords
{
    /// <summary>What is done at a valve.</summary>
    public static string Action(PlanRow row) => row switch
    {
        { Chance: null } => "no suitable shim",
        { Action: "fit" } => "change",
        { Action: "turn", Turns: { } turns } => $"turn {WorkingWords.Flats(turns)}",
        _ => "leave alone",
    };

    /// <summary>What comes out and what goes in.</summary>
    public static string Move(PlanRow row, LengthStyle lengths) => row switch
    {
        { Action: "fit", From: { } from, To: { } to } => $"{lengths.Shim(from.Thickness)} \u2192 {lengths.Shim(to.Thickness)}",
        { From: { } from } => lengths.Shim(from.Thickness),
        _ => "",
    };

    /// <summary>Where a shim comes from.</summary>
    public static string Source(FittedRow? to, string place = "") => to switch
    {
        null => "",
        { Source: "engine", FromValve: { } valve } => $"out of {valve}",
        { Source: "buy" } => "buy",
        { Marked: { } mark } => string.Create(CultureInfo.InvariantCulture, $"{Drawer(place)}, {to.By}, marked {mark:0.00##}"),
        _ => $"{Drawer(place)}, {to.By}",
    };

    /// <summary>How many valves are changed.</summary>
    public static string Changed(PlanAccepted plan) => plan.Changes.Count() switch
    {
        0 => "Every valve stays as it is",
        var some => string.Create(CultureInfo.InvariantCulture, $"Change {some} of {plan.Valves.Count} valves"),
    };

    private static string Drawer(string place) => place.Length == 0 ? "drawer" : $"drawer {place}";

    /// <summary>A clearance with the interval in which it lies 95 times in 100.</summary>
    public static string Spread(double mean, double low, double high, LengthStyle lengths) =>
        $"{lengths.Clearance(mean)} ({lengths.Clearance(low)} to {lengths.Clearance(high)})";

    public static string List(IEnumerable<string> names, string none = "nothing") =>
        string.Join(", ", names) is { Length: > 0 } list ? list : none;

    public static string Bought(IEnumerable<BoughtRow> bought, LengthStyle lengths) => List(bought.Select(b =>
        string.Create(CultureInfo.InvariantCulture, $"{b.Count}\u00a0\u00d7\u00a0{lengths.Shim(b.Thickness)}")));
}
