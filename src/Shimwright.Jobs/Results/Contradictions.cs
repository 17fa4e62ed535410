using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Results;

/// <summary>Which reading of a valve is meant.</summary>
/// <param name="IsBucket">Whether it is one of the turns of the bucket, not one of the blades.</param>
/// <param name="Place">Its place among those of its kind, from 0.</param>
public readonly record struct ReadingPlace(bool IsBucket, int Place);

/// <summary>Two readings of one valve that cannot both be right.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="One">One of the two; of two blades or two turns the older.</param>
/// <param name="Other">The other.</param>
/// <param name="Words">What contradicts what, and what to do.</param>
public sealed record Contradiction(string Valve, ReadingPlace One, ReadingPlace Other, string Words);

/// <summary>Readings of one valve that cannot both be right. They are named before anything is made of them.</summary>
public static class Contradictions
{
    private const double SameBlade = 1e-9;

    /// <summary>Blades so far apart are no matter of a worn leaf, mm. Common practice, no source.</summary>
    private const double Apart = 0.02;

    /// <summary>One for each valve that contradicts itself: its newest pair.</summary>
    /// <param name="engine">The engine.</param>
    /// <param name="readings">What was read, in the engine's order.</param>
    /// <param name="words">How lengths are written.</param>
    /// <returns>The contradictions, in the engine's order.</returns>
    /// <exception cref="ArgumentNullException">An argument is null.</exception>
    public static IReadOnlyList<Contradiction> In(Engine engine, IReadOnlyList<ValveReadings> readings, LengthWords words)
    {
        ArgumentNullException.ThrowIfNull(engine);
        ArgumentNullException.ThrowIfNull(readings);
        ArgumentNullException.ThrowIfNull(words);
        return [.. engine.Valves.Select((valve, v) => Of(valve.Id, readings[v], words)).OfType<Contradiction>()];
    }

    /// <summary>The same as cautions.</summary>
    internal static IEnumerable<string> Cautions(Engine engine, IReadOnlyList<ValveReadings> readings, LengthWords words) =>
        [.. In(engine, readings, words).Select(c => c.Words), .. engine.Valves.Select((valve, v) => OfValues(valve.Id, readings[v], words)).OfType<string>()];

    /// <summary>A measured clearance that another one, or a blade, contradicts: further apart than three of its standard uncertainties, and for a blade than blades may be.</summary>
    private static string? OfValues(string valve, ValveReadings readings, LengthWords words)
    {
        const double Sure = 3;
        for (int newer = 0; newer < readings.Values.Count; newer++)
        {
            DirectValue value = readings.Values[newer];
            if (readings.Values.Take(newer).FirstOrDefault(o => Math.Abs(o.Millimetres - value.Millimetres) > Sure * double.Hypot(o.Uncertainty, value.Uncertainty)) is { } other)
            {
                return Named($"{words.Clearance(other.Millimetres)} and {words.Clearance(value.Millimetres)} were measured, too far apart for their uncertainties");
            }

            double doubt = (Sure * value.Uncertainty) + Apart;
            if (readings.Trials.FirstOrDefault(t => t.Feel is Feel.Light or Feel.Loose ? t.Blade > value.Millimetres + doubt : t.Feel == Feel.No && t.Blade < value.Millimetres - doubt) is { } trial)
            {
                return Named($"{words.Shim(trial.Blade)} {Felt(trial.Feel, isPast: true)}, but {words.Clearance(value.Millimetres)} was measured");
            }
        }

        return null;

        string Named(string what) => $"{valve}: {what}. Measure and feel it again, and take back the wrong reading.";
    }

    private static Contradiction? Of(string valve, ValveReadings readings, LengthWords words)
    {
        IReadOnlyList<BladeTrial> trials = readings.Trials;
        for (int newer = trials.Count - 1; newer > 0; newer--)
        {
            for (int older = newer - 1; older >= 0; older--)
            {
                if (Contradict(trials[older], trials[newer]))
                {
                    return Named(new(false, older), new(false, newer),
                        $"{words.Shim(trials[older].Blade)} {Felt(trials[older].Feel, isPast: true)}, but {words.Shim(trials[newer].Blade)} {Felt(trials[newer].Feel, isPast: false)}.");
                }
            }
        }

        List<bool> turns = [.. readings.BucketTurns];
        if (turns.Count > 0 && turns.LastIndexOf(!turns[^1]) is >= 0 and var before)
        {
            return Named(new(true, before), new(true, turns.Count - 1), "the bucket turned on one try and not on another.");
        }

        int entered = trials.Index().LastOrDefault(t => t.Item.Feel is Feel.Light or Feel.Loose, (-1, null!)).Index;
        return turns.Count > 0 && !turns[^1] && entered >= 0
            ? Named(new(true, turns.Count - 1), new(false, entered), $"the bucket does not turn, but {words.Shim(trials[entered].Blade)} slides in.")
            : null;

        Contradiction Named(ReadingPlace one, ReadingPlace other, string what) =>
            new(valve, Among(one), Among(other), $"{valve}: {what} Feel the valve again and take back the wrong reading.");

        ReadingPlace Among(ReadingPlace counted) => counted with { Place = counted.Place + (counted.IsBucket ? readings.Older.BucketTurns : readings.Older.Trials) };
    }

    /// <summary>A thicker blade that went more easily than a thinner one, or one blade that felt two grades apart.</summary>
    private static bool Contradict(BladeTrial one, BladeTrial other)
    {
        (BladeTrial thin, BladeTrial thick) = one.Blade <= other.Blade ? (one, other) : (other, one);
        int grades = thick.Feel - thin.Feel;
        double apart = thick.Blade - thin.Blade;
        return apart < SameBlade ? Math.Abs(grades) >= 2 : grades >= 2 || (grades == 1 && apart > Apart - SameBlade);
    }

    private static string Felt(Feel feel, bool isPast) => feel switch
    {
        Feel.No => isPast ? "would not enter" : "won't enter",
        Feel.Firm => isPast ? "was firm" : "is firm",
        Feel.Light => isPast ? "was light" : "is light",
        _ => isPast ? "was loose" : "is loose",
    };
}
