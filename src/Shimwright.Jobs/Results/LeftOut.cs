using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Bounds;
using static System.FormattableString;

namespace Shimwright.Jobs.Results;

/// <summary>Readings that were left out because there are many of one valve.</summary>
internal static class LeftOut
{
    /// <summary>Minutes that are worth a word.</summary>
    private const double LeastMinutes = 0.1;

    /// <summary>One caution for each valve of which older readings do not count.</summary>
    /// <param name="engine">The engine.</param>
    /// <param name="readings">The readings that count, in the engine's order.</param>
    public static IEnumerable<string> Cautions(Engine engine, IReadOnlyList<ValveReadings> readings) => engine.Valves.Index()
        .Where(v => CountOf(readings[v.Index]) > 0)
        .Select(v => Invariant($"{v.Item.Id}: only the newest {Limits.MostReadingsCounted} readings of each kind count; {CountOf(readings[v.Index])} older {(CountOf(readings[v.Index]) == 1 ? "one is" : "ones are")} left out."));

    /// <summary>A caution where older past checks do not count; null where all do.</summary>
    public static string? Past(Job job) => job.Sections.History.Count - job.History.Count is > 0 and var older
        ? Invariant($"Only the newest {job.History.Count} past checks count; {older} older {(older == 1 ? "one is" : "ones are")} left out.")
        : null;

    /// <summary>A caution where finer differences than this are not told apart; null where all are.</summary>
    public static string? Finer(double floor) => floor > 0
        ? Invariant($"This job asks for more than can be worked out: differences under {floor:0.0000} mm are left out, so intervals come out wider. For finer figures make a job of each camshaft.")
        : null;

    /// <summary>A caution where the best plan is not proven best; null where it is.</summary>
    public static string? Unproven(double minutes) => minutes >= LeastMinutes
        ? Invariant($"The search for the best plan was stopped: another plan may take up to {minutes:0.#} minutes less. For the best plan make a job of each camshaft, or list fewer shims.")
        : null;

    /// <summary>What is said where things to do next were not weighed.</summary>
    public static string Unweighed(int actions) => actions == 1
        ? "One more thing to do next was not weighed: this job asks for more than can be worked out."
        : Invariant($"{actions} more things to do next were not weighed: this job asks for more than can be worked out.");

    private static int CountOf(ValveReadings readings) => readings.Older.Trials + readings.Older.Values + readings.Older.BucketTurns;
}
