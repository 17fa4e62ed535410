using System.Collections.Concurrent;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>One valve of the slow posterior: plain sums over its clearances, for each offset and shared loss.</summary>
internal sealed class SlowValve
{
    private const double StrayWeight = 0.03;
    private const double StrayReach = 0.5;
    private static readonly ConcurrentDictionary<(SlowGrid Grid, double Width, LossPrior Loss, double Reach), double[][]> Tables = new();
    private readonly Valve _valve;
    private readonly SlowGrid _grid;
    private readonly double[][] _likelihood;
    private readonly double[][] _rows;
    private readonly double[] _stray;
    private readonly double _reach;

    public SlowValve(EngineCheck check, int valve, SlowGrid grid, (double Fingers, double Heat)[] offsets)
    {
        _valve = check.Engine.Valves[valve];
        _grid = grid;
        IsReworked = check.Loss.IsReworked(_valve.Side);
        double needed = (4 * 0.24) + (2 * _valve.Band.Width) + (18 * check.Loss.Own);
        _reach = Math.Ceiling(Math.Max(0.82, needed) / grid.ClearanceStep) * grid.ClearanceStep;
        int cells = (int)Math.Round(2 * _reach / grid.ClearanceStep);
        double[][] logs = [.. offsets.Select(o => Enumerable.Range(0, cells)
            .Select(i => SlowLaw.LogLikelihood(At(i), check.Readings[valve], check, valve, o.Fingers, o.Heat)).ToArray())];
        double peak = logs.Max(l => l.Max());
        _likelihood = [.. logs.Select(l => l.Select(x => Math.Exp(x - peak)).ToArray())];
        _stray = [.. Enumerable.Range(0, cells).Select(i => !IsReworked && Math.Abs(At(i) - _valve.Band.Middle) < StrayReach ? StrayWeight / (2 * StrayReach) : 0)];
        _rows = IsReworked ? [Reworked(cells)] : Tables.GetOrAdd(
            (grid, Math.Round(_valve.Band.Width, 9), check.Loss, check.Engine.Sense == GapSense.Opening ? _reach : -_reach), key => [.. grid.Losses.Select(l => l.Loss).Select(l =>
                Enumerable.Range(0, cells).Select(i => SlowLaw.PlaceDensity(
                    Math.Sign(key.Reach) * (At(i) - _valve.Band.Middle), key.Width / 4, key.Loss.Own, l)).ToArray())]);
        Evidence = [.. offsets.Select((_, o) => _rows.Select((_, k) => Total(o, k, null)).ToArray())];
    }

    public bool IsReworked { get; }

    public ValveSide Side => _valve.Side;

    /// <summary>The chance of the readings under each offset and shared loss, up to one factor.</summary>
    public double[][] Evidence { get; }

    /// <summary>The number of a shared loss among this valve's rows.</summary>
    public int RowOf(int loss) => IsReworked ? 0 : loss;

    /// <summary>The chance that the valve ends up in band, under each offset and shared loss.</summary>
    public double[][] ChancesGivenCause(Func<double, double> ends)
    {
        double[] chances = [.. _stray.Select((_, i) => ends(At(i)))];
        return [.. _likelihood.Select((_, o) => _rows.Select((_, k) => Total(o, k, chances) / Evidence[o][k]).ToArray())];
    }

    /// <summary>The probability of each cell, averaged over offsets and shared losses.</summary>
    public double[] Marginal(Func<int, int, double> weights, int losses)
    {
        double[] mass = new double[_stray.Length];
        for (int o = 0; o < _likelihood.Length; o++)
        {
            for (int k = 0; k < losses; k++)
            {
                double weight = weights(o, k) / Evidence[o][RowOf(k)];
                for (int i = 0; i < mass.Length && weights(o, k) > 1e-13; i++)
                {
                    mass[i] += weight * Joint(o, RowOf(k), i);
                }
            }
        }

        return mass;
    }

    public ClearanceEstimate Summarise(double[] mass)
    {
        double mean = mass.Index().Sum(m => m.Item * At(m.Index));
        double variance = mass.Index().Sum(m => m.Item * Math.Pow(At(m.Index) - mean, 2));
        return new(
            mean,
            Math.Sqrt(variance),
            Quantile(mass, 0.025),
            Quantile(mass, 0.975),
            mass.Index().Sum(m => m.Item * _grid.ShareInBand(At(m.Index), _valve.Band)));
    }

    /// <summary>The middle of cell i, mm.</summary>
    public double At(int i) => _valve.Band.Middle - _reach + ((i + 0.5) * _grid.ClearanceStep);

    private double[] Reworked(int cells)
    {
        double[] row = [.. Enumerable.Range(0, cells).Select(i => At(i) - _valve.Band.Middle)
            .Select(y => Math.Abs(y) < 0.8 ? Math.Exp(-y * y / (2 * 0.25 * 0.25)) : 0)];
        double total = row.Sum() * _grid.ClearanceStep;
        return [.. row.Select(r => r / total / (1 - StrayWeight))];
    }

    private double Quantile(double[] mass, double share)
    {
        double below = 0;
        int i = 0;
        while (below + mass[i] < share)
        {
            below += mass[i++];
        }

        return At(i) + (_grid.ClearanceStep * (((share - below) / mass[i]) - 0.5));
    }

    /// <summary>The sum over all cells, weighted where weights are given.</summary>
    private double Total(int offset, int row, double[]? weights)
    {
        double sum = 0;
        for (int i = 0; i < _stray.Length; i++)
        {
            sum += weights is null ? Joint(offset, row, i) : weights[i] * Joint(offset, row, i);
        }

        return sum;
    }

    /// <summary>The chance of cell i and of the readings, under an offset and a shared loss.</summary>
    private double Joint(int offset, int row, int i) =>
        _grid.ClearanceStep * _likelihood[offset][i] * (((1 - StrayWeight) * _rows[row][i]) + _stray[i]);
}
