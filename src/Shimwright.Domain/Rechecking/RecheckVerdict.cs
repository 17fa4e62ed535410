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
        return new([.. before.Engine.Valves.Select((_, v) =>
            Judge(v, estimate.Valves[v], changes.GetValueOrDefault(v), recheck))]);
    }

    private static RecheckedValve Judge(int v, ClearanceDistribution before, Adjustment? change, Recheck recheck)
    {
        ValveReadings readings = recheck.Readings[v];
        ClearanceDistribution predicted = change is null
            ? before
            : before.After(ClearanceChange.Of(change, recheck.Before.Engine.Valvetrain, recheck.Seating));
        ClearanceDistribution prior = change is null ? before : WithStrays(predicted);
        ClearanceDistribution after = readings.IsEmpty
            ? prior
            : Update(prior, Likelihood.On(prior.Grid, readings, recheck.Thermal, recheck.Before.Feel));
        return new(
            recheck.Before.Engine.Valves[v],
            predicted,
            after.Summarise(),
            Surprise.Of(predicted, readings, recheck.Thermal, recheck.Before.Feel));
    }

    private static ClearanceDistribution WithStrays(ClearanceDistribution predicted)
    {
        double[] smooth = predicted.Smooth.ToArray();
        for (int i = 0; i < smooth.Length; i++)
        {
            smooth[i] *= 1 - StrayWeight;
        }

        double[] stray = new double[smooth.Length];
        Array.Fill(stray, StrayWeight / (2 * LossPrior.StrayReach));
        return new ClearanceDistribution(predicted.Grid, predicted.Band, smooth, stray);
    }

    private static ClearanceDistribution Update(ClearanceDistribution prior, double[] likelihood)
    {
        double[] smooth = prior.Smooth.ToArray();
        double[] stray = prior.Stray.ToArray();
        for (int i = 0; i < smooth.Length; i++)
        {
            smooth[i] *= likelihood[i];
            stray[i] *= likelihood[i];
        }

        return new ClearanceDistribution(prior.Grid, prior.Band, smooth, stray);
    }
}
