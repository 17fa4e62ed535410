using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Results;

namespace Shimwright.Jobs.Sheets;

/// <summary>Turns what stood in a job file into facts.</summary>
internal static class FactImport
{
    public static IEnumerable<JobFact> Readings(SheetPart part, string valve, ValveReadings readings) =>
    [
        .. readings.Trials.Select(t => new BladeTried(part, valve, t.Blade, t.Leaves, Words.Of(t.Feel))),
        .. readings.Values.Select(v => new ClearanceRead(part, valve, v.Millimetres, v.Uncertainty)),
        .. readings.BucketTurns.Select(t => new BucketTurned(part, valve, t)),
    ];

    public static JobFact Change(MadeChange change, Engine engine)
    {
        string valve = engine.Valves[change.Valve].Id;
        return change is { From: { } from, To: { } to }
            ? new ShimFitted(valve, RowOf(from), RowOf(to))
            : new ScrewTurned(valve, change.Turns);
    }

    private static ThicknessRow RowOf(Thickness t) => new(t.Millimetres, t.By.Name);
}
