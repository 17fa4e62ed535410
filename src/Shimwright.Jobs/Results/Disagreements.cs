using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Wording;
using static System.FormattableString;

namespace Shimwright.Jobs.Results;

/// <summary>Valves whose own readings and whose estimate contradict each other: neither is overruled without a word.</summary>
public static class Disagreements
{
    private const int MostNames = 4;

    /// <summary>The cautions of an estimate.</summary>
    /// <param name="estimate">The estimate.</param>
    /// <param name="words">How lengths are written.</param>
    /// <returns>One caution for each such valve.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="estimate"/> or <paramref name="words"/> is null.</exception>
    public static IReadOnlyList<string> Cautions(EngineEstimate estimate, LengthWords words)
    {
        ArgumentNullException.ThrowIfNull(estimate);
        ArgumentNullException.ThrowIfNull(words);
        ClearanceEstimate[] estimates = [.. estimate.Valves.Select(v => v.Summarise())];
        bool[] contradicts = [.. estimates.Select((e, v) => estimate.Alone[v]?.Contradicts(e) == true)];
        return [.. Enumerable.Range(0, estimates.Length).Where(v => contradicts[v]).Select(v => Caution(estimate, estimates[v], v, contradicts, words))];
    }

    private static string Caution(EngineEstimate estimate, ClearanceEstimate all, int v, bool[] contradicts, LengthWords words)
    {
        ReadingAlone alone = estimate.Alone[v]!;
        string what = alone.Readings.Trials.Count > 0 && alone.Readings.Values.Count == 0 ? "your blades say" : "your reading says";
        return Invariant($"{estimate.Check.Engine.Valves[v].Id}: {what} {words.Clearance(alone.Estimate.Mean)} {words.Unit}, {Others(estimate, v, contradicts)} {words.Clearance(all.Mean)}. Feel it again.");
    }

    /// <summary>What speaks against a valve's own readings: the past of the engine, or the valves that share a cause with it.</summary>
    private static string Others(EngineEstimate estimate, int v, bool[] contradicts)
    {
        if (estimate.SharedCauseProbability is not { } oneCause)
        {
            return "what is known from before makes it";
        }

        IReadOnlyList<Valve> valves = estimate.Check.Engine.Valves;
        string[] fellows = [.. Enumerable.Range(0, valves.Count)
            .Where(f => f != v && !contradicts[f] && estimate.Alone[f] is not null && (oneCause >= 0.5 || valves[f].Side == valves[v].Side))
            .Select(f => valves[f].Id)];
        string more = fellows.Length > MostNames ? Invariant($" and {fellows.Length - MostNames} more") : "";
        return fellows.Length == 0 ? "what is usual makes it" : $"its fellows {string.Join(", ", fellows.Take(MostNames))}{more} make it";
    }
}
