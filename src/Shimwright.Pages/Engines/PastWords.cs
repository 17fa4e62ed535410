using System.Globalization;
using Shimwright.Bench.Due;
using Shimwright.Jobs.Measures;

namespace Shimwright.Pages.Engines;

/// <summary>An engine's past in words.</summary>
internal static class PastWords
{
    /// <summary>What the past means for a job that is about to start, in a line; null where there is none. It needs no more than what is kept.</summary>
    public static string? Of(KeptForecast? kept, bool tellsMore, ClockStyle clocks) => kept is null ? null
        : $"This is the {Ordinal(kept.Checks + 1)} check. The last was at {clocks.Text(kept.Clock)}. "
            + (tellsMore
                ? "Past checks count, so each valve takes fewer blades."
                : "Put the maker's interval on the card to use past checks.");

    private static string Ordinal(int n) => n switch
    {
        2 => "second",
        3 => "third",
        4 => "fourth",
        5 => "fifth",
        6 => "sixth",
        _ => string.Create(CultureInfo.InvariantCulture, $"{n}{Ending(n)}"),
    };

    private static string Ending(int n) => (n % 100) is 11 or 12 or 13 ? "th" : (n % 10) switch { 1 => "st", 2 => "nd", 3 => "rd", _ => "th" };
}
