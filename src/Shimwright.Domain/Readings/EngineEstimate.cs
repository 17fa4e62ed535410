namespace Shimwright.Domain.Readings;

/// <summary>
/// What one check says about every valve of an engine. Where the engine's past is unknown its valves share causes;
/// where it is known they are independent.
/// </summary>
public sealed class EngineEstimate
{
    private readonly IReadOnlyList<ValveEvidence> _evidence = [];
    private readonly SharedLoss? _shared;

    private EngineEstimate(EngineCheck check, IReadOnlyList<ValveEvidence> evidence, SharedLoss shared)
    {
        Check = check;
        _evidence = evidence;
        _shared = shared;
        Valves = [.. check.Engine.Valves.Select((valve, v) => evidence[v].Average(shared.Marginal(valve.Side)))];
    }

    private EngineEstimate(EngineCheck check, IReadOnlyList<ClearanceDistribution> valves)
    {
        Check = check;
        Valves = valves;
    }

    /// <summary>The check that this rests on.</summary>
    public EngineCheck Check { get; }

    /// <summary>The marginal distribution of each valve's clearance, in the engine's order.</summary>
    public IReadOnlyList<ClearanceDistribution> Valves { get; }

    /// <summary>
    /// The weight, after the readings, of one cause behind the losses of both sides; 0.5 where there is one side only, null
    /// where the engine's past is known and its valves are independent.
    /// </summary>
    public double? SharedCauseProbability => _shared?.SharedCauseProbability;

    /// <summary>Estimates every valve of an engine.</summary>
    /// <param name="check">The check.</param>
    /// <param name="finestLater">The least standard deviation by which the result will be moved later, mm.</param>
    /// <returns>The estimate.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="check"/> is null.</exception>
    public static EngineEstimate From(EngineCheck check, double finestLater = double.PositiveInfinity)
    {
        ArgumentNullException.ThrowIfNull(check);
        return check.Past is { } past ? FromPast(check, past, finestLater) : FromUnknown(check, finestLater);
    }

    /// <summary>For each shared loss, the chance that a valve is in band, and stays so, if it is left as it is.</summary>
    internal double[] KeptGivenLoss(int valve, double chance, SurvivalWeights? staying) =>
        _shared is null ? [chance] : _evidence[valve].InBandGivenLoss(staying);

    /// <summary>For each shared loss, the chance that a valve lands in band after a change; landing is the chance of it from each grid point.</summary>
    internal double[] ChangedGivenLoss(int valve, double chance, Func<double[]> landing) =>
        _shared is null ? [chance] : _evidence[valve].LandingGivenLoss(landing());

    /// <summary>For each shared loss, a chance that does not depend on it.</summary>
    internal double[] FixedGivenLoss(int valve, double chance)
    {
        double[] chances = new double[_shared is null ? 1 : _evidence[valve].Evidence.Length];
        Array.Fill(chances, chance);
        return chances;
    }

    /// <summary>
    /// The chance that all valves are in band, the shared cause counted: the average over the shared loss of the
    /// product of the valves' chances given it. Null leaves a valve out.
    /// </summary>
    internal double ChanceOfAll(IReadOnlyList<double[]?> chancesGivenLoss) => _shared is null
        ? chancesGivenLoss.Aggregate(1.0, (all, chance) => all * (chance?[0] ?? 1))
        : _shared.ChanceOfAll(chancesGivenLoss);

    private static EngineEstimate FromUnknown(EngineCheck check, double finestLater)
    {
        Resolution resolution = Resolution.For(check, finestLater);
        Dictionary<double, OwnLossTable> tables = [];
        List<ValveEvidence> evidence = [];
        foreach ((int v, Engines.Valve valve) in check.Engine.Valves.Index())
        {
            double width = Math.Round(valve.Band.Width, 9);
            if (!tables.TryGetValue(width, out OwnLossTable? table))
            {
                tables.Add(width, table = new OwnLossTable(width, check.Loss, resolution));
            }

            evidence.Add(new ValveEvidence(valve, check.Readings[v], check, resolution, table));
        }

        return new(check, evidence, new SharedLoss(check.Engine.Valves, evidence, check.Loss, resolution));
    }

    private static EngineEstimate FromPast(EngineCheck check, HistoryPrior past, double finestLater)
    {
        double finest = past.Valves.Select((v, i) => v.StandardDeviation / Math.Sqrt(
            1 + Numerics.Squares.Of(v.StandardDeviation / check.Feel.FinestScale(check.Readings[i])))).Min();
        var update = new HistoryUpdate(Resolution.For(check, Math.Min(finest, finestLater)), check.Feel, past.StrayWeight);
        return new(check, [.. check.Engine.Valves.Select((valve, v) =>
            update.Distribution(past.Valves[v], check.Readings[v], check.Thermal, valve.Band, check.Loss))]);
    }
}
