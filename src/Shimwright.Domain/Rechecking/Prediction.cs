using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Rechecking;

/// <summary>What the work lets expect of every valve, and the re-check with that for its prior.</summary>
/// <param name="Predicted">Each valve as the changes were meant, in the engine's order.</param>
/// <param name="Check">The re-check as a check; its prior counts with changes that went otherwise.</param>
internal sealed record Prediction(IReadOnlyList<ClearanceDistribution> Predicted, EngineCheck Check)
{
    /// <summary>The weight of a change that went otherwise than planned.</summary>
    private const double StrayWeight = 0.05;

    /// <summary>The prediction of a re-check.</summary>
    public static Prediction Of(Recheck recheck)
    {
        EngineCheck before = recheck.Before;
        double finest = Math.Min(recheck.Seating.ChangeUncertainty(0), recheck.Readings.Min(before.Feel.FinestScale));
        EngineEstimate estimate = EngineEstimate.From(before, finest);
        Dictionary<int, Adjustment> changes = recheck.Changes.ToDictionary(c => c.Valve);
        ClearanceDistribution[] predicted = [.. estimate.Valves.Select((found, v) =>
            changes.GetValueOrDefault(v) is { } change ? found.After(ClearanceChange.Of(change, before.Engine.Valvetrain, recheck.Seating)) : found)];
        RoundPrior left = new(predicted.Select((expected, v) => changes.ContainsKey(v)
            ? new RoundValve(expected, StrayWeight, null, WasChanged: true)
            : new RoundValve(expected, 0, before.ReadAt(v), before.Round is { } round && round.Valves[v].WasChanged)));
        return new(predicted, before.Again(recheck.Readings, recheck.Temperature).InRound(left));
    }
}
