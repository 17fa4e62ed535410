using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Bounds;
using static System.FormattableString;

namespace Shimwright.Jobs.Results;

/// <summary>Readings that were left out because there are many of one valve.</summary>
internal static class LeftOut
{
    /// <summary>One caution for each valve of which older readings do not count.</summary>
    /// <param name="engine">The engine.</param>
    /// <param name="readings">The readings that count, in the engine's order.</param>
    public static IEnumerable<string> Cautions(Engine engine, IReadOnlyList<ValveReadings> readings) => engine.Valves.Index()
        .Where(v => CountOf(readings[v.Index]) > 0)
        .Select(v => Invariant($"{v.Item.Id}: only the newest {Limits.MostReadingsCounted} readings of each kind count; {CountOf(readings[v.Index])} older {(CountOf(readings[v.Index]) == 1 ? "one is" : "ones are")} left out."));

    private static int CountOf(ValveReadings readings) => readings.Older.Trials + readings.Older.Values + readings.Older.BucketTurns;
}
