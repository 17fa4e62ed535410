using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>
/// The posterior of an engine by plain sums over all clearances, shared losses and offsets: the slow estimate against which
/// the fast one is held.
/// </summary>
internal sealed class SlowPosterior
{
    private readonly SlowValve[] _valves;
    private readonly double[] _prior;
    private readonly double[] _offsetWeights;
    private readonly double[][] _together;
    private readonly double[] _apart;
    private readonly Dictionary<ValveSide, double[][]> _bySide = [];
    private readonly Dictionary<ValveSide, double[]> _ofSide;
    private readonly double _allTogether;
    private readonly double _allApart;
    private readonly double[][] _masses;

    public SlowPosterior(EngineCheck check, SlowGrid? grid = null)
    {
        grid ??= SlowGrid.Usual;
        double doubt = check.Engine.ClearancePerDegreeOf(ValveSide.Intake) is null ? 0.0005 * Math.Abs(check.Temperature - 20) : 0;
        var offsets = from f in grid.Fingers(check.Feel.Doubt) from h in grid.Heat(doubt) select (f.Offset, Heat: h.Offset, Weight: f.Weight * h.Weight);
        _offsetWeights = [.. offsets.Select(o => o.Weight)];
        _valves = [.. check.Engine.Valves.Select((_, v) => new SlowValve(check, v, grid, [.. offsets.Select(o => (o.Offset, o.Heat))]))];
        double total = grid.Losses.Sum(l => l.Width * Math.Exp(-l.Loss / check.Loss.Shared));
        _prior = [.. grid.Losses.Select(l => l.Width * Math.Exp(-l.Loss / check.Loss.Shared) / total)];

        _together = Weights(_ => true);
        foreach (ValveSide side in _valves.Where(v => !v.IsReworked).Select(v => v.Side).Distinct())
        {
            _bySide[side] = Weights(v => !v.IsReworked && v.Side == side);
        }

        _ofSide = _bySide.ToDictionary(side => side.Key, side => side.Value.Select(row => row.Sum()).ToArray());
        _apart = [.. _offsetWeights.Select((w, o) => w
            * _valves.Where(v => v.IsReworked).Aggregate(1.0, (p, v) => p * v.Evidence[o][0])
            * _ofSide.Values.Aggregate(1.0, (p, side) => p * side[o]))];
        _allTogether = _together.Select((row, o) => _offsetWeights[o] * row.Sum()).Sum();
        _allApart = _apart.Sum();
        SharedCauseProbability = _allTogether / (_allTogether + _allApart);
        _masses = [.. _valves.Select(v => v.Marginal([.. _offsetWeights.Select((_, o) => _prior.Select((_, k) => Weight(v, o, k)).ToArray())]))];
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
        double[][][] chances = [.. _valves.Select((valve, v) => valve.ChancesGivenCause(c => ends(v, c)))];
        double Product(int o, int k, Func<SlowValve, bool> counts) => _valves.Index().Where(v => counts(v.Item))
            .Aggregate(1.0, (p, v) => p * chances[v.Index][o][v.Item.RowOf(k)]);
        double together = _together.Select((row, o) => _offsetWeights[o] * row.Select((w, k) => w * Product(o, k, _ => true)).Sum()).Sum() / _allTogether;
        double apart = _apart.Select((w, o) => w * Product(o, 0, v => v.IsReworked) * _bySide.Aggregate(1.0, (p, side) =>
            p * side.Value[o].Select((s, k) => s * Product(o, k, v => !v.IsReworked && v.Side == side.Key)).Sum() / _ofSide[side.Key][o])).Sum() / _allApart;
        return (SharedCauseProbability * together) + ((1 - SharedCauseProbability) * apart);
    }

    private double Weight(SlowValve valve, int o, int k)
    {
        double apart = _apart[o] / _allApart * (valve.IsReworked ? _prior[k] : _bySide[valve.Side][o][k] / _ofSide[valve.Side][o]);
        return (SharedCauseProbability * _offsetWeights[o] * _together[o][k] / _allTogether) + ((1 - SharedCauseProbability) * apart);
    }

    /// <summary>For each offset and shared loss: its prior, times the evidence of the valves that count.</summary>
    private double[][] Weights(Func<SlowValve, bool> counts) =>
    [
        .. _offsetWeights.Select((_, o) => _prior.Select((p, k) =>
            _valves.Where(counts).Aggregate(p, (product, v) => product * v.Evidence[o][v.RowOf(k)])).ToArray()),
    ];
}
