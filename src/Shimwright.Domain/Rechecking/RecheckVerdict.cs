using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Rechecking;

/// <summary>One valve after the work.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Predicted">What was expected before the re-check was read.</param>
/// <param name="Estimate">What is known with the re-check.</param>
/// <param name="Surprise">How unlikely the reading was, or anything less likely; null where nothing was read.</param>
public sealed record RecheckedValve(Valve Valve, ClearanceDistribution Predicted, ClearanceEstimate Estimate, double? Surprise)
{
    /// <summary>The surprise below which one looks again.</summary>
    public const double LookAgain = 0.01;

    /// <summary>The chance of being in band from which a valve passes.</summary>
    public const double PassFloor = 0.5;

    /// <summary>Whether the reading is so far from the prediction that something else may be wrong.</summary>
    public bool IsSurprising => Surprise < LookAgain;

    /// <summary>Whether the valve passes.</summary>
    public bool Passes => Estimate.InBand >= PassFloor;
}

/// <summary>The verdict on a re-check.</summary>
/// <param name="Valves">Every valve, in the engine's order.</param>
public sealed record RecheckVerdict(IReadOnlyList<RecheckedValve> Valves)
{
    /// <summary>The weight of a change that went otherwise than planned.</summary>
    private const double StrayWeight = 0.05;

    /// <summary>Whether every valve passes.</summary>
    public bool Passes => Valves.All(v => v.Passes);

    /// <summary>Judges a re-check.</summary>
    /// <param name="recheck">The re-check.</param>
    /// <returns>The verdict.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="recheck"/> is null.</exception>
    public static RecheckVerdict On(Recheck recheck)
    {
        ArgumentNullException.ThrowIfNull(recheck);
        EngineCheck before = recheck.Before;
        double finest = Math.Min(recheck.Seating.ChangeUncertainty(0), recheck.Readings.Min(before.Feel.FinestScale));
        EngineEstimate estimate = EngineEstimate.From(before, finest);
        Dictionary<int, Adjustment> changes = recheck.Changes.ToDictionary(c => c.Valve);
        ClearanceDistribution[] predicted = [.. estimate.Valves.Select((valve, v) => changes.TryGetValue(v, out Adjustment? change)
            ? valve.After(ClearanceChange.Of(change, before.Engine.Valvetrain, recheck.Seating))
            : valve)];
        EngineEstimate after = EngineEstimate.From(
            before.Again(recheck.Readings, recheck.Temperature),
            predicted,
            [.. predicted.Select((_, v) => changes.ContainsKey(v) ? StrayWeight : 0)]);
        return new([.. before.Engine.Valves.Select((valve, v) => new RecheckedValve(
            valve,
            predicted[v],
            after.Valves[v].Summarise(),
            Surprise.Of(predicted[v], recheck.Readings[v], after.Check.ShiftAt(v), before.Feel)))]);
    }
}
