using System.Text.Json.Serialization;
using Shimwright.Domain.Readings;

namespace Shimwright.Jobs.Results;

/// <summary>One valve's estimate; lengths in mm.</summary>
public sealed record ValveEstimate(string Valve, double Mean, double Sd, double Low, double High, double InBand, string Status)
{
    internal static ValveEstimate Of(string valve, ClearanceEstimate e) => new(
        valve, Rounding.Length(e.Mean), Rounding.Length(e.StandardDeviation), Rounding.Length(e.Low), Rounding.Length(e.High),
        Rounding.Chance(e.InBand), Words.Of(e.Status));
}

/// <summary>The trial to make next.</summary>
public sealed record NextTrial(string Valve, double Blade);

/// <summary>The answer of the command estimate.</summary>
public sealed record EstimateResult(
    string Format, IReadOnlyList<ValveEstimate> Valves, double? OneCause, NextTrial? NextBlade, IReadOnlyList<string> Cautions)
{
    /// <summary>The clearances found from depths, with their budgets; left out where there is none.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<DepthRow>? Depths { get; init; }

    /// <summary>Estimates a job.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The answer.</returns>
    public static EstimateResult Of(Job job)
    {
        ArgumentNullException.ThrowIfNull(job);
        EngineEstimate estimate = EngineEstimate.From(job.Check);
        return Of(job, estimate, Domain.Readings.NextBlade.Suggest(estimate, [.. job.Blades]));
    }

    /// <summary>The answer for an estimate that is at hand.</summary>
    /// <param name="job">The job.</param>
    /// <param name="estimate">Its estimate.</param>
    /// <param name="next">The trial to make next, or null.</param>
    /// <returns>The answer.</returns>
    public static EstimateResult Of(Job job, EngineEstimate estimate, NextBlade? next)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(estimate);
        return new(
            "shimwright-estimate/1",
            [.. job.Engine.Valves.Select((valve, v) => ValveEstimate.Of(valve.Id, estimate.Valves[v].Summarise()))],
            Rounding.Chance(estimate.SharedCauseProbability),
            next is null ? null : new NextTrial(job.Engine.Valves[next.Valve].Id, Rounding.Length(next.Blade)),
            Results.Cautions.OfCheck(job))
        {
            Depths = DepthRow.OfCheck(job),
        };
    }
}
