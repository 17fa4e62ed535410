using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Rechecking;

/// <summary>One valve after the work.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Predicted">What was expected before the re-check was read.</param>
/// <param name="Estimate">What is known with the re-check.</param>
/// <param name="Alone">The chance of being in band that its reading gives by itself: that of the re-check, else the last one since it was changed; null where there is none.</param>
/// <param name="Result">Whether it passes, and if not, why.</param>
/// <param name="Surprise">How unlikely the reading was, or anything less likely; null where nothing was read.</param>
public sealed record RecheckedValve(
    Valve Valve, ClearanceDistribution Predicted, ClearanceEstimate Estimate, double? Alone, PassResult Result, double? Surprise)
{
    /// <summary>The surprise below which one looks again.</summary>
    public const double LookAgain = 0.01;

    /// <summary>Whether the reading is so far from the prediction that something else may be wrong.</summary>
    public bool IsSurprising => Surprise < LookAgain;

    /// <summary>Whether the valve passes.</summary>
    public bool Passes => Result == PassResult.Passes;
}

/// <summary>The verdict on a re-check.</summary>
/// <param name="Valves">Every valve, in the engine's order.</param>
/// <param name="ChanceAll">The chance that all are in band.</param>
public sealed record RecheckVerdict(IReadOnlyList<RecheckedValve> Valves, double ChanceAll)
{
    /// <summary>The length below which nothing is told apart, mm; 0 where all is told apart as it is.</summary>
    public double Floor { get; private init; }

    /// <summary>Whether every valve passes.</summary>
    public bool Passes => Valves.All(v => v.Passes);

    /// <summary>Judges a re-check.</summary>
    /// <param name="recheck">The re-check.</param>
    /// <returns>The verdict.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="recheck"/> is null.</exception>
    public static RecheckVerdict On(Recheck recheck)
    {
        ArgumentNullException.ThrowIfNull(recheck);
        Prediction prediction = Prediction.Of(recheck);
        EngineEstimate estimate = EngineEstimate.From(prediction.Check);
        return new(
            [.. estimate.Valves.Select((valve, v) => Judge(v, valve, prediction, recheck.Pass ?? PassRule.Usual))],
            estimate.ChanceOfAll([.. estimate.Valves.Select((_, v) => estimate.KeptGivenCause(v, null))]))
        {
            Floor = estimate.Floor,
        };
    }

    private static RecheckedValve Judge(int v, ClearanceDistribution now, Prediction prediction, PassRule pass)
    {
        EngineCheck check = prediction.Check;
        double? surprise = Surprise.AtRecheck(prediction.Predicted[v], check, v);
        ReadingAlone? alone = check.ReadAt(v) is { } read ? ReadingAlone.At(read, v) : null;
        return new(
            check.Engine.Valves[v],
            prediction.Predicted[v],
            now.Summarise(),
            alone?.Estimate.InBand,
            pass.Judge(now.InBand, alone?.Estimate.InBand, check.Round!.Valves[v].WasChanged, alone is { IsUnbounded: false }, surprise < RecheckedValve.LookAgain),
            surprise);
    }
}
