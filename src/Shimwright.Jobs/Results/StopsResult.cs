using Shimwright.Domain.CrankStops;
using Shimwright.Jobs.Guidance;

namespace Shimwright.Jobs.Results;

/// <summary>A valve at its stop; crank degrees.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="SlackDeg">How far the crank may turn either way before its heel ends.</param>
public sealed record StoppedRow(string Valve, double SlackDeg);

/// <summary>A stop; crank degrees after cylinder 1's compression TDC.</summary>
/// <param name="CrankDeg">Where the crank stops.</param>
/// <param name="TurnFromPrevious">How far to turn to get there.</param>
/// <param name="Valves">The valves that are read there.</param>
/// <param name="Words">What to do, in a sentence.</param>
/// <param name="Cautions">What to heed while the crank is turned there.</param>
public sealed record StopRow(double CrankDeg, double TurnFromPrevious, IReadOnlyList<StoppedRow> Valves, string Words, IReadOnlyList<string> Cautions);

/// <summary>The answer of the command stops.</summary>
/// <param name="Format">shimwright-stops/1.</param>
/// <param name="Stops">The stops, in order.</param>
/// <param name="Rules">Rules of thumb that hold for the engine.</param>
/// <param name="Cautions">What to heed before the crank is turned.</param>
public sealed record StopsResult([property: Words(StopsResult.FormatName)] string Format, IReadOnlyList<StopRow> Stops, IReadOnlyList<string> Rules, IReadOnlyList<string> Cautions)
{
    /// <summary>What its member format says.</summary>
    public const string FormatName = "shimwright-stops/1";

    /// <summary>Plans the stops of a job that was read for them.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> is null.</exception>
    /// <exception cref="InvalidOperationException">The job was not read for the stops.</exception>
    public static StopsResult Of(Job job)
    {
        ArgumentNullException.ThrowIfNull(job);
        CrankLayout layout = job.ToLayout();
        StopPlan plan = StopPlan.For(layout, job.Layout!.StopsAnywhere)
            ?? throw new InvalidOperationException("The job was not read for the stops: some valve has no mark.");
        return new(
            FormatName,
            [.. plan.Stops.Select((stop, s) => new StopRow(
                Rounding.Degrees(stop.Angle),
                Rounding.Degrees(stop.Turn),
                [.. stop.Valves.Select(v => new StoppedRow(layout.Valves[v.Valve].Id, Rounding.Degrees(v.Slack)))],
                StopWords.Of(stop, s == 0, layout, job.Layout.Turning),
                CautionsAt(stop, layout)))],
            StopWords.Rules(layout),
            [WorkOrder.Isolate, WorkOrder.TurnByHand, WorkOrder.Deference]);
    }

    private static IReadOnlyList<string> CautionsAt(CrankStop stop, CrankLayout layout) =>
    [
        WorkOrder.WhileTurning,
        .. stop.Valves.Select(v => layout.Valves[v.Valve]).Where(v => v.Decompressor is not null)
            .GroupBy(v => v.Decompressor!.Lifts, v => v.Id).Select(lifted => DecompressorWords.Approach(lifted, lifted.Key)),
    ];
}
