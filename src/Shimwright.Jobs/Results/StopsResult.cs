using Shimwright.Domain.CrankStops;
using Shimwright.Jobs.Guidance;

namespace Shimwright.Jobs.Results;

/// <summary>A valve at its stop; crank degrees.</summary>
public sealed record StoppedRow(string Valve, double SlackDeg);

/// <summary>A stop; crank degrees after cylinder 1's compression TDC.</summary>
public sealed record StopRow(double CrankDeg, double TurnFromPrevious, IReadOnlyList<StoppedRow> Valves, string Words);

/// <summary>The answer of the command stops.</summary>
public sealed record StopsResult(string Format, IReadOnlyList<StopRow> Stops, IReadOnlyList<string> Rules)
{
    /// <summary>Plans the stops of a job that was read for them.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The answer.</returns>
    public static StopsResult Of(Job job)
    {
        ArgumentNullException.ThrowIfNull(job);
        CrankLayout layout = job.ToLayout();
        StopPlan plan = StopPlan.For(layout, job.Layout!.StopsAnywhere)
            ?? throw new InvalidOperationException("The job was not read for the stops: some valve has no mark.");
        return new(
            "shimwright-stops/1",
            [.. plan.Stops.Select((stop, s) => new StopRow(
                Rounding.Degrees(stop.Angle),
                Rounding.Degrees(stop.Turn),
                [.. stop.Valves.Select(v => new StoppedRow(layout.Valves[v.Valve].Id, Rounding.Degrees(v.Slack)))],
                StopWords.Of(stop, s == 0, layout, job.Layout.Turning)))],
            StopWords.Rules(layout));
    }
}
