using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Results;

/// <summary>Readings of one valve that cannot both be right. They are named before anything is made of them.</summary>
internal static class Contradictions
{
    private const double SameBlade = 1e-9;

    /// <summary>Blades so far apart are no matter of a worn leaf, mm. Common practice, no source.</summary>
    private const double Apart = 0.02;

    /// <summary>One caution for each valve that contradicts itself: its newest pair.</summary>
    public static IEnumerable<string> Cautions(Engine engine, IReadOnlyList<ValveReadings> readings, LengthWords words) =>
        engine.Valves.Select((valve, v) => Of(readings[v], words) is { } what ? $"{valve.Id}: {what} Feel the valve again and take back the wrong reading." : null).OfType<string>();

    private static string? Of(ValveReadings readings, LengthWords words)
    {
        IReadOnlyList<BladeTrial> trials = readings.Trials;
        for (int newer = trials.Count - 1; newer > 0; newer--)
        {
            for (int older = newer - 1; older >= 0; older--)
            {
                if (Contradict(trials[older], trials[newer]))
                {
                    return $"{words.Shim(trials[older].Blade)} {Felt(trials[older].Feel, isPast: true)}, but {words.Shim(trials[newer].Blade)} {Felt(trials[newer].Feel, isPast: false)}.";
                }
            }
        }

        if (readings.BucketTurns.Distinct().Count() > 1)
        {
            return "the bucket turned on one try and not on another.";
        }

        BladeTrial? entered = trials.LastOrDefault(t => t.Feel is Feel.Light or Feel.Loose);
        return readings.BucketTurns.Contains(false) && entered is not null
            ? $"the bucket does not turn, but {words.Shim(entered.Blade)} slides in."
            : null;
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
