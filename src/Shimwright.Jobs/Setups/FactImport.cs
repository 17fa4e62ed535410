using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Depth;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sections;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Setups;

/// <summary>Turns what stood in a job file into facts.</summary>
internal static class FactImport
{
    /// <summary>The readings of a valve; what came of <paramref name="depths"/> stands among its values and is kept as its parts.</summary>
    public static IEnumerable<JobFact> Readings(SheetPart part, string valve, ValveReadings readings, IEnumerable<DepthBudget> depths)
    {
        DepthBudget[] taken = [.. depths.Where(d => d.Valve == valve)];
        List<DirectValue> values = [.. readings.Values];
        foreach (DepthBudget depth in taken)
        {
            values.Remove(DepthReading.ToDirectValue(depth.Budget));
        }

        return
        [
            .. readings.Trials.Select(t => new BladeTried(part, valve, t.Blade, t.Leaves, Words.Of(t.Feel))),
            .. values.Select(v => new ClearanceRead(part, valve, v.Millimetres, v.Uncertainty)),
            .. taken.Select(d => new DepthTaken(part, valve, d.Camshaft, PartOf(d, "bucket")!, PartOf(d, "shim"))),
            .. readings.BucketTurns.Select(t => new BucketTurned(part, valve, t)),
        ];
    }

    /// <summary>What was done before a dry fit, and what was felt at it.</summary>
    public static IEnumerable<JobFact> DryFit(DryFit dry, ReadingsSection felt, Engine engine) =>
    [
        .. dry.Changes.Select(c => Change(c, engine)),
        .. engine.Valves.SelectMany(v => Readings(SheetPart.DryFit, v.Id, felt.AllAt(v.Id), [])),
    ];

    public static JobFact Change(Adjustment change, Engine engine)
    {
        string valve = engine.Valves[change.Valve].Id;
        return change is { From: { } from, To: { } to }
            ? new ShimFitted(valve, RowOf(from), RowOf(to))
            : new ScrewTurned(valve, change.Turns);
    }

    private static MeasuredPart? PartOf(DepthBudget depth, string name) =>
        depth.Budget.Lines.Select(l => l.Input).FirstOrDefault(i => i.Name == name) is { } input
            ? new(input.Value, input.Uncertainty, double.IsPositiveInfinity(input.Degrees) ? null : input.Degrees)
            : null;

    private static ThicknessRow RowOf(Thickness t) => new(t.Millimetres, t.By.Name);
}
