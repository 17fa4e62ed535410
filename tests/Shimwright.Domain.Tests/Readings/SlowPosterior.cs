using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>
/// The posterior of an engine by plain sums over all clearances and shared losses: the slow estimate against which
/// the fast one is held.
/// </summary>
internal sealed class SlowPosterior
{
    private readonly EngineCheck _check;
    private readonly SlowValve[] _valves;
    private readonly double[] _together;
    private readonly double[][] _masses;
    private readonly Dictionary<ValveSide, double[]> _bySide = [];

    public SlowPosterior(EngineCheck check, SlowGrid? grid = null)
    {
        _check = check;
        _valves = [.. check.Engine.Valves.Select((v, i) => new SlowValve(v, check.Readings[i], check, grid ?? SlowGrid.Usual))];
        (_together, double logTogether) = Weigh(_valves);
        double logApart = 0;
        foreach (IGrouping<ValveSide, SlowValve> side in _valves.GroupBy(v => v.Side))
        {
            (_bySide[side.Key], double log) = Weigh([.. side]);
            logApart += log;
        }

        SharedCauseProbability = 1 / (1 + Math.Exp(logApart - logTogether));
        _masses = [.. _valves.Select(v => v.Marginal([.. _together.Zip(_bySide[v.Side], (t, s) => (SharedCauseProbability * t) + ((1 - SharedCauseProbability) * s))]))];
        Valves = [.. _valves.Zip(_masses, (v, mass) => v.Summarise(mass))];
    }

    public double SharedCauseProbability { get; }

    public IReadOnlyList<ClearanceEstimate> Valves { get; }

    /// <summary>The probability of each cell of a valve's clearance.</summary>
    public IEnumerable<(double Clearance, double Mass)> Cells(int valve) =>
        _masses[valve].Select((mass, i) => (_valves[valve].At(i), mass));

    /// <summary>The chance that all valves end up in band; valve number v at c does so with the chance ends(v, c).</summary>
    public double ChanceOfAll(Func<int, double, double> ends)
    {
        double[][] chances = [.. _valves.Select((valve, v) => valve.ChancesGivenLoss(c => ends(v, c)))];
        double Mean(double[] weights, Func<SlowValve, bool> counts) => weights.Index().Sum(w =>
            w.Item * _valves.Index().Where(v => counts(v.Item)).Aggregate(1.0, (p, v) => p * chances[v.Index][w.Index]));
        double apart = _bySide.Aggregate(1.0, (product, side) => product * Mean(side.Value, v => v.Side == side.Key));
        return (SharedCauseProbability * Mean(_together, _ => true)) + ((1 - SharedCauseProbability) * apart);
    }

    private (double[] Weights, double LogEvidence) Weigh(SlowValve[] valves)
    {
        double[] losses = valves[0].Losses;
        double total = losses.Sum(l => Math.Exp(-l / _check.Loss.Shared));
        double[] log =
        [
            .. losses.Select((l, k) => (-l / _check.Loss.Shared) - Math.Log(total) + valves.Sum(v => Math.Log(v.Evidence[k]))),
        ];
        double peak = log.Max();
        double sum = log.Sum(x => Math.Exp(x - peak));
        return ([.. log.Select(x => Math.Exp(x - peak) / sum)], peak + Math.Log(sum));
    }
}
