using System.Text.Json.Serialization;
using Shimwright.Domain.Readings;

namespace Shimwright.Jobs.Results;

/// <summary>One valve's estimate; lengths in mm.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Mean">Mean of the clearance.</param>
/// <param name="Sd">Its standard deviation.</param>
/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end of the 95 % interval.</param>
/// <param name="InBand">The chance of being in band.</param>
/// <param name="Status">in, out or unsettled.</param>
public sealed record ValveEstimate(string Valve, double Mean, [property: Bounds(0)] double Sd, double Low, double High, [property: Bounds(0, 1)] double InBand, [property: Words(typeof(ClearanceStatus))] string Status)
{
    /// <summary>The estimate from this valve's readings alone; null where it was not read.</summary>
    public ReadingEstimate? Reading { get; init; }

    internal static ValveEstimate Of(string valve, ClearanceEstimate e, ClearanceEstimate? alone) => new(
        valve, Rounding.Length(e.Mean), Rounding.Length(e.StandardDeviation), Rounding.Length(e.Low), Rounding.Length(e.High),
        Rounding.Chance(e.InBand), Words.Of(e.Status))
    {
        Reading = alone is null ? null : new(
            Rounding.Length(alone.Mean), Rounding.Length(alone.Low), Rounding.Length(alone.High), Rounding.Chance(alone.InBand)),
    };
}

/// <summary>The estimate from the readings of one valve alone; lengths in mm.</summary>
/// <param name="Mean">Mean of the clearance.</param>
/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end of the 95 % interval.</param>
/// <param name="InBand">The chance of being in band.</param>
public sealed record ReadingEstimate(double Mean, double Low, double High, [property: Bounds(0, 1)] double InBand);

/// <summary>The trial to make next.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Blade">The blade to try there, mm.</param>
public sealed record NextTrial(string Valve, double Blade);

/// <summary>The answer of the command estimate.</summary>
/// <param name="Format">shimwright-estimate/1.</param>
/// <param name="Valves">The valves, in the engine's order.</param>
/// <param name="OneCause">The chance that one cause has moved both sides; null where the valves are independent.</param>
/// <param name="NextBlade">The trial that would tell you most, or null.</param>
/// <param name="Cautions">What to bear in mind.</param>
public sealed record EstimateResult(
    [property: Words(EstimateResult.FormatName)] string Format, IReadOnlyList<ValveEstimate> Valves, double? OneCause, NextTrial? NextBlade, IReadOnlyList<string> Cautions)
{
    /// <summary>What its member format says.</summary>
    public const string FormatName = "shimwright-estimate/1";

    /// <summary>The clearances found from depths, with their budgets; left out where there is none.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<DepthRow>? Depths { get; init; }

    /// <summary>Estimates a job.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> is null.</exception>
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
    /// <exception cref="ArgumentNullException"><paramref name="job"/> or <paramref name="estimate"/> is null.</exception>
    public static EstimateResult Of(Job job, EngineEstimate estimate, NextBlade? next)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(estimate);
        return new(
            FormatName,
            [.. job.Engine.Valves.Select((valve, v) => ValveEstimate.Of(valve.Id, estimate.Valves[v].Summarise(), estimate.Alone[v]?.Estimate))],
            Rounding.Chance(estimate.SharedCauseProbability),
            next is null ? null : new NextTrial(job.Engine.Valves[next.Valve].Id, Rounding.Length(next.Blade)),
            [.. Results.Cautions.OfCheck(job, estimate), .. Disagreements.Cautions(estimate, Wording.LengthWords.Millimetres)])
        {
            Depths = DepthRow.OfCheck(job),
        };
    }
}
