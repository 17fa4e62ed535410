using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// What one check says about every valve of an engine. Where the engine's past is unknown its valves share causes;
/// where it is known they are independent but for what all readings of the check may be off by together.
/// </summary>
public sealed class EngineEstimate
{
    private readonly ValveEvidence[] _evidence;
    private readonly SharedCause _cause;
    private readonly CheckOffsets _offsets;
    private readonly double[] _logLosses;
    private readonly bool _sharesLoss;
    private readonly Resolution _resolution;
    private readonly Lazy<IReadOnlyList<ReadingAlone?>> _alone;

    /// <summary>Of an estimate with more read: the first one before it, and the valves at which more was read since; null elsewhere.</summary>
    private readonly (EngineEstimate Before, IReadOnlyCollection<int> Anew)? _ahead;
    private readonly double[]?[] _weights;

    private EngineEstimate(
        EngineCheck check, ValveEvidence[] evidence, double[] logLosses, CheckOffsets offsets, (Resolution Resolution, double Made) work,
        (EngineEstimate Before, IReadOnlyCollection<int> Anew)? ahead = null)
    {
        Check = check;
        (_resolution, Made) = work;
        (_evidence, _logLosses, _offsets) = (evidence, logLosses, offsets);
        _cause = new SharedCause(check.Engine.Valves, _evidence, logLosses, offsets);
        _sharesLoss = evidence.Any(e => e.IsShared);
        _ahead = ahead;
        _weights = new double[evidence.Length][];
        Valves = ahead is null
            ? [.. _evidence.Select((e, v) => e.Average(_cause.Marginal(v)))]
            : new WorkedValves(evidence.Length, v => _evidence[v].Average(WeightsAt(v)));
        _alone = new(() => [.. Enumerable.Range(0, Valves.Count).Select(v => ReadingAlone.At(check, v))]);
    }

    /// <summary>The check that this rests on.</summary>
    public EngineCheck Check { get; }

    /// <summary>The marginal distribution of each valve's clearance, in the engine's order.</summary>
    public IReadOnlyList<ClearanceDistribution> Valves { get; }

    /// <summary>What each valve's readings say by themselves, in the engine's order; null where nothing was read.</summary>
    public IReadOnlyList<ReadingAlone?> Alone => _alone.Value;

    /// <summary>
    /// The weight, after the readings, of one cause behind the losses of both sides; 0.5 where one side only shares a loss, null
    /// where no valves share one.
    /// </summary>
    public double? SharedCauseProbability => _sharesLoss ? _cause.SharedCauseProbability : null;

    /// <summary>The length below which nothing is told apart, mm, so that the estimate can be borne; 0 where all is told apart as it is.</summary>
    public double Floor => _resolution.Floor;

    /// <summary>How many sums and products the estimate takes, roughly.</summary>
    internal double Made { get; }

    /// <summary>ln of the chance of everything that was read.</summary>
    internal double LogEvidence => _cause.LogEvidence + _evidence.Sum(e => e.Peak);

    /// <summary>Estimates every valve of an engine.</summary>
    /// <param name="check">The check.</param>
    /// <param name="finestLater">The least standard deviation by which the result will be moved later, mm.</param>
    /// <returns>The estimate.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="check"/> is null.</exception>
    public static EngineEstimate From(EngineCheck check, double finestLater = double.PositiveInfinity)
    {
        ArgumentNullException.ThrowIfNull(check);
        return check.Round is { } round ? FromRound(check, round)
            : check.Past is { } past ? FromPast(check, past, finestLater)
            : FromUnknown(check, finestLater);
    }

    /// <summary>The same of a check in which more is going to be read: see <see cref="With"/>.</summary>
    internal static EngineEstimate Open(EngineCheck check, double finestLater) =>
        From(check.Open, Math.Min(finestLater, check.Feel.FinestScaleOfAll(check.Readings)));

    /// <summary>The estimate with more read at one valve: only its own likelihood and the weights of what valves share are worked out anew.</summary>
    internal EngineEstimate With(int valve, ValveReadings more)
    {
        EngineCheck check = Check.With(valve, more);
        ValveEvidence[] evidence = [.. _evidence];
        evidence[valve] = evidence[valve].With(new Likelihood(check.Readings[valve], check.Feel, _resolution), check.ShiftAt(valve), _offsets);
        return new(
            check, evidence, _logLosses, _offsets, (_resolution, Made),
            _ahead is { } ahead ? (ahead.Before, [.. ahead.Anew, valve]) : (this, [valve]));
    }

    /// <summary>Whether this is another estimate with more read, but not at this valve: given what valves share it is there what it was.</summary>
    internal bool IsAsIn(EngineEstimate before, int valve) => _ahead is { } ahead && ahead.Before == before && !ahead.Anew.Contains(valve);

    /// <summary>The weight of each shared cause at a valve.</summary>
    internal double[] WeightsAt(int valve) => _weights[valve] ??= _cause.Marginal(valve);

    private static EngineEstimate Of(EngineCheck check, IReadOnlyList<ClearancePrior> priors, double[] logLosses, Resolution resolution, EstimateWork work)
    {
        var offsets = CheckOffsets.For(check, resolution with { Step = priors.Max(p => p.Grid.Step) }, work.Precision);
        return new(
            check,
            [.. priors.Select((prior, v) => new ValveEvidence(
                prior, new OffsetLikelihood(prior.Grid, new Likelihood(check.Readings[v], check.Feel, resolution), check.ShiftAt(v), offsets)))],
            logLosses,
            offsets,
            (resolution, work.Made));
    }

    /// <summary>A valve of a side that was worked on, from a check without offsets: it shares nothing with others.</summary>
    internal static ClearanceDistribution Reworked(EngineCheck check, int valve)
    {
        var work = new EstimateWork(check, 0, _ => 2 * LossPrior.HeadWorkReach, valve);
        var resolution = Resolution.For(check, double.PositiveInfinity, work);
        var prior = ClearancePrior.Reworked(check.Engine.Valves[valve].Band, resolution.Step);
        var evidence = new ValveEvidence(prior, new OffsetLikelihood(
            prior.Grid, new Likelihood(check.Readings[valve], check.Feel, resolution), check.ShiftAt(valve), CheckOffsets.None));
        return evidence.Average([1]);
    }

    /// <summary>Valves of which an earlier round has left something, each for itself; on the grids of that round.</summary>
    private static EngineEstimate FromRound(EngineCheck check, RoundPrior round)
    {
        double step = round.Valves.Max(v => v.Left.Grid.Step);
        double precision = round.Valves.Sum(v => 1 / Squares.Of(v.Left.StandardDeviation));
        var work = new EstimateWork(check, precision, v => round.Valves[v].Left.Grid.Count * step);
        Resolution resolution = Resolution.Bearable(floor => new(step, floor), work.CanBear);
        return Of(check, [.. round.Valves.Select(v => ClearancePrior.Known(v.Left, v.StrayWeight))], [0], resolution, work);
    }

    /// <summary>For each shared cause, the chance that a valve is in band, and stays so, if it is left as it is.</summary>
    internal double[] KeptGivenCause(int valve, SurvivalWeights? staying) => _evidence[valve].InBandGivenCause(staying);

    /// <summary>For each shared cause, the chance that a valve lands in band after a change; landing is the chance of it from each grid point.</summary>
    internal double[] ChangedGivenCause(int valve, ReadOnlySpan<double> landing) => _evidence[valve].LandingGivenCause(landing);

    /// <summary>For each shared cause, a chance that does not depend on it.</summary>
    internal double[] FixedGivenCause(int valve, double chance)
    {
        double[] chances = new double[_evidence[valve].Evidence.Length];
        Array.Fill(chances, chance);
        return chances;
    }

    /// <summary>
    /// The chance that all valves are in band, the shared causes counted: the average over them of the
    /// product of the valves' chances given them. Null leaves a valve out.
    /// </summary>
    internal double ChanceOfAll(IReadOnlyList<double[]?> chancesGivenCause) => _cause.ChanceOfAll(chancesGivenCause);

    private static EngineEstimate FromUnknown(EngineCheck check, double finestLater)
    {
        IReadOnlyList<Valve> valves = check.Engine.Valves;
        double bandScale = valves.Min(v => Resolution.BandScale(v.Band.Width));
        var work = new EstimateWork(
            check, valves.Count / (Squares.Of(bandScale) + Squares.Of(check.Loss.Own)), v => LossTable.ReachOf(valves[v].Band.Width, check.Loss));
        var resolution = Resolution.For(check, finestLater, work);
        var nodes = LossNodes.For(check.Loss, resolution.Counted(bandScale), valves.Count);
        Dictionary<double, LossTable> tables = [];
        ClearancePrior PriorOf(Valve valve)
        {
            if (check.Loss.IsReworked(valve.Side))
            {
                return ClearancePrior.Reworked(valve.Band, resolution.Step);
            }

            double width = Math.Round(valve.Band.Width, 9);
            if (!tables.TryGetValue(width, out LossTable? table))
            {
                tables.Add(width, table = new LossTable(width, check.Loss, nodes, resolution, check.Engine.Sense));
            }

            return ClearancePrior.Unknown(valve.Band, table, resolution.Step);
        }

        ClearancePrior[] priors = [.. valves.Select(PriorOf)];
        return Of(check, priors, priors.Any(p => p.IsShared) ? nodes.LogWeights : [0], resolution, work);
    }

    private static EngineEstimate FromPast(EngineCheck check, HistoryPrior past, double finestLater)
    {
        double finest = past.Valves.Select((v, i) => v.StandardDeviation / Math.Sqrt(
            1 + Squares.Of(v.StandardDeviation / check.Feel.FinestScale(check.Readings[i])))).Min();
        var work = new EstimateWork(check, past.Valves.Sum(v => 1 / Squares.Of(v.StandardDeviation)), v => HistoryUpdate.ReachOf(past.Valves[v], check.Engine.Valves[v].Band, check.Loss));
        var resolution = Resolution.For(check, Math.Min(finest, finestLater), work);
        var update = new HistoryUpdate(resolution, check.Feel, past.StrayWeight, check.Engine.Sense);
        return Of(
            check,
            [.. check.Engine.Valves.Select((valve, v) => check.Loss.IsReworked(valve.Side)
                ? ClearancePrior.Reworked(valve.Band, resolution.Step)
                : update.Prior(past.Valves[v], check.Readings[v], valve.Band, check.Loss))],
            [0],
            resolution,
            work);
    }
}
