using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using static System.FormattableString;

namespace Shimwright.Jobs.Wording;

/// <summary>Why a valve cannot be brought into its band, in words that name the thickness it would want.</summary>
public static class StrandedWords
{
    /// <summary>The reason in words.</summary>
    /// <param name="reason">The reason.</param>
    /// <param name="engine">The engine, for the names of its valves.</param>
    /// <param name="words">How lengths are written.</param>
    /// <returns>One sentence without its full stop.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="reason"/>, <paramref name="engine"/> or <paramref name="words"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException">There is no such reason.</exception>
    public static string Of(StrandedReason reason, Engine engine, LengthWords words)
    {
        ArgumentNullException.ThrowIfNull(reason);
        ArgumentNullException.ThrowIfNull(engine);
        ArgumentNullException.ThrowIfNull(words);
        return reason switch
        {
            BandTooNarrow narrow => Invariant(
                $"a screw set by feel lands in a band {words.Clearance(narrow.Width)} {words.Unit} wide too rarely for the floor of {narrow.FitFloor:0.00}"),
            SizesTaken taken => $"{Wanted(taken.Wanted, words)}; {string.Join("; ", taken.Sizes.Select(s => Holders(s, engine, words)).Distinct())}",
            NoSizeWouldDo none => $"{Wanted(none.Wanted, words)}; what can be had runs from {words.Shim(none.Thinnest)} to {words.Shim(none.Thickest)} {words.Unit}, and none of it would do",
            NothingAtHand nothing => $"{Wanted(nothing.Wanted, words)}; there is nothing in the drawer and nothing to buy",
            _ => throw new ArgumentOutOfRangeException(nameof(reason), reason, "This reason has no words."),
        };
    }

    private static string Wanted(double wanted, LengthWords words) => $"it would want about {words.Shim(Math.Round(wanted, 2))} {words.Unit}";

    private static string Holders(SizeTaken size, Engine engine, LengthWords words) => string.Join(", ", size.Holders.Select(h => h.Keeps
        ? $"{engine.Valves[h.Valve].Id} keeps its {words.Shim(size.Thickness)}"
        : $"{engine.Valves[h.Valve].Id} takes the {words.Shim(size.Thickness)} from {(h.FromValve is { } giver ? engine.Valves[giver].Id : "the drawer")}"));
}
