using System.Text.Json.Nodes;
using Shimwright.Bench.Due;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Past;

namespace Shimwright.Web.Engines;

/// <summary>What an engine's closed jobs mean for the next one: the past that it starts with, and what is expected of its clock.</summary>
internal sealed class EnginePast
{
    private readonly JsonArray _history;
    private readonly bool _tellsMore;

    private EnginePast(JsonArray history, bool tellsMore)
    {
        _history = history;
        _tellsMore = tellsMore;
    }

    /// <summary>Without usual wear on the card a past says nothing: then a job starts without.</summary>
    public static EnginePast Of(EngineCard card, IReadOnlyList<PastJob> closed) => new(EngineHistory.Of(card, closed), card.Wear is not null);

    /// <summary>Its clock at the last check, or null.</summary>
    public double? LastClock => EngineHistory.LastClock(_history);

    /// <summary>What a job starts with, the past put into it.</summary>
    public JsonObject On(JsonObject bench)
    {
        if (_tellsMore && _history.Count > 0)
        {
            bench["history"] = _history.DeepClone();
        }

        return bench;
    }

    /// <summary>What is wrong with a clock, or null.</summary>
    public JobProblem? ProblemAt(double clock, ClockStyle clocks) => LastClock is { } last && clock < last
        ? new("clock", $"found {clocks.Text(clock)}, and the last check was at {clocks.Text(last)}",
            "enter what the clock shows now, that or more; where a new clock was fitted, add what the old one had counted")
        : null;

    /// <summary>What the past means for a job that is about to start, in a line; null where there is none. It needs no more than what is kept.</summary>
    public static string? Words(KeptForecast? kept, bool tellsMore, ClockStyle clocks) => kept is null ? null
        : $"This will be the {Ordinal(kept.Checks + 1)} check; the last was at {clocks.Text(kept.Clock)}. "
            + (tellsMore
                ? "Each valve is expected where its past puts it, so fewer trials settle it; what you feel still decides."
                : "The card does not say what wear is usual, so the past says nothing about this check: put interval and loss on the card.");

    private static string Ordinal(int n) => n switch
    {
        2 => "second",
        3 => "third",
        4 => "fourth",
        5 => "fifth",
        6 => "sixth",
        _ => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{n}{Ending(n)}"),
    };

    private static string Ending(int n) => (n % 100) is 11 or 12 or 13 ? "th" : (n % 10) switch { 1 => "st", 2 => "nd", 3 => "rd", _ => "th" };
}
