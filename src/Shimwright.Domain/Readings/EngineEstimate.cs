namespace Shimwright.Domain.Readings;

/// <summary>What one check says about every valve of an engine, the valves' shared cause included.</summary>
public sealed class EngineEstimate
{
    private readonly IReadOnlyList<ValveEvidence> _evidence;
    private readonly SharedLoss _shared;

    private EngineEstimate(EngineCheck check, IReadOnlyList<ValveEvidence> evidence, SharedLoss shared)
    {
        Check = check;
        _evidence = evidence;
        _shared = shared;
        Valves = [.. check.Engine.Valves.Select((valve, v) => evidence[v].Average(shared.Marginal(valve.Side)))];
    }

    /// <summary>The check that this rests on.</summary>
    public EngineCheck Check { get; }

    /// <summary>The marginal distribution of each valve's clearance, in the engine's order.</summary>
    public IReadOnlyList<ClearanceDistribution> Valves { get; }

    /// <summary>The weight, after the readings, of one cause behind the losses of both sides; 0.5 where there is one side only.</summary>
    public double OneCause => _shared.OneCause;

    /// <summary>Estimates every valve of an engine whose history is unknown.</summary>
    /// <param name="check">The check.</param>
    /// <param name="finestLater">The least standard deviation by which the result will be moved later, mm.</param>
    /// <returns>The estimate.</returns>
    public static EngineEstimate From(EngineCheck check, double finestLater = double.PositiveInfinity)
    {
        ArgumentNullException.ThrowIfNull(check);
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

    /// <summary>For each shared loss, the chance that a valve is in band if it is left as it is.</summary>
    internal double[] KeptGivenLoss(int valve) => _evidence[valve].InBandGivenLoss();

    /// <summary>For each shared loss, the chance that a valve lands in band after a change.</summary>
    internal double[] ChangedGivenLoss(int valve, double shift, double error) =>
        _evidence[valve].LandingGivenLoss(Valves[valve].LandingChances(shift, error));

    /// <summary>For each shared loss, a chance that does not depend on it.</summary>
    internal double[] FixedGivenLoss(int valve, double chance)
    {
        double[] chances = new double[_evidence[valve].Evidence.Length];
        Array.Fill(chances, chance);
        return chances;
    }

    /// <summary>
    /// The chance that all valves are in band, the shared cause counted: the average over the shared loss of the
    /// product of the valves' chances given it. Null leaves a valve out.
    /// </summary>
    internal double ChanceOfAll(IReadOnlyList<double[]?> chancesGivenLoss) => _shared.ChanceOfAll(chancesGivenLoss);
}
