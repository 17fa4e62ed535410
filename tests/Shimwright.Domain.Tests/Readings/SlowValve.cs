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
    private readonly Range[] _heard;
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
        // Where nothing was read no offset says more than another.
        double[][] logs = Logs(check, valve, cells, check.Readings[valve].IsEmpty ? [default] : offsets);
        double peak = logs.Max(l => l.Max());
        _likelihood = [.. logs.Select(l => l.Select(x => Math.Exp(x - peak)).ToArray())];
        _heard = [.. _likelihood.Select(Heard)];
        _stray = [.. Enumerable.Range(0, cells).Select(i => !IsReworked && Math.Abs(At(i) - _valve.Band.Middle) < StrayReach ? StrayWeight / (2 * StrayReach) : 0)];
        _rows = IsReworked ? [Reworked(cells)] : Tables.GetOrAdd(
            (grid, Math.Round(_valve.Band.Width, 9), check.Loss, check.Engine.Sense == GapSense.Opening ? _reach : -_reach), key => [.. grid.Losses.Select(l => l.Loss).Select(l =>
                Enumerable.Range(0, cells).Select(i => SlowLaw.PlaceDensity(
                    Math.Sign(key.Reach) * (At(i) - _valve.Band.Middle), key.Width / 4, key.Loss.Own, l)).ToArray())]);
        double[][] evidence = [.. logs.Select((_, o) => _rows.Select((_, k) => Total(o, k, null)).ToArray())];
        Evidence = logs.Length == offsets.Length ? evidence : [.. offsets.Select(_ => evidence[0])];
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
        double[][] found = [.. _likelihood.Select((_, o) => _rows.Select((_, k) => Total(o, k, chances) / Evidence[o][k]).ToArray())];
        return found.Length == Evidence.Length ? found : [.. Evidence.Select(_ => found[0])];
    }

    /// <summary>The probability of each cell, under weights of the offsets and shared losses.</summary>
    public double[] Marginal(double[][] weights)
    {
        if (_likelihood.Length < weights.Length)
        {
            weights = [[.. weights[0].Select((_, k) => weights.Sum(row => row[k]))]];
        }

        double[] mass = new double[_stray.Length];
        for (int o = 0; o < _likelihood.Length; o++)
        {
            (int from, int count) = _heard[o].GetOffsetAndLength(mass.Length);
            double[] place = new double[count];
            for (int k = 0; k < weights[o].Length; k++)
            {
                double weight = weights[o][k] / Evidence[o][RowOf(k)];
                if (weights[o][k] > 1e-13)
                {
                    double[] row = _rows[RowOf(k)];
                    for (int i = 0; i < count; i++)
                    {
                        place[i] += weight * (((1 - StrayWeight) * row[from + i]) + _stray[from + i]);
                    }
                }
            }

            for (int i = 0; i < count; i++)
            {
                mass[from + i] += _grid.ClearanceStep * _likelihood[o][from + i] * place[i];
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

    /// <summary>ln of the chance of the readings under each offset, at each cell. Many offsets meet at the same gap: each is felt once.</summary>
    private double[][] Logs(EngineCheck check, int valve, int cells, (double Fingers, double Heat)[] offsets)
    {
        ValveReadings readings = check.Readings[valve];
        double? kappa = check.Engine.ClearancePerDegreeOf(_valve.Side);
        Dictionary<long, double> felt = [];
        Dictionary<long, double> read = [];
        double Once(Dictionary<long, double> known, double gap, Func<double, double> log)
        {
            long key = (long)Math.Round(gap * 1e9);
            return known.TryGetValue(key, out double found) ? found : known[key] = log(gap);
        }

        double At(int i, (double Fingers, double Heat) offset)
        {
            double gap = this.At(i) + ((kappa ?? 0) * (check.Temperature - 20)) + (kappa is null ? offset.Heat : 0);
            return Once(felt, gap + offset.Fingers, g => SlowLaw.LogFelt(g, readings, check.Feel)) + Once(read, gap, g => SlowLaw.LogRead(g, readings));
        }

        return [.. offsets.Select(o => Enumerable.Range(0, cells).Select(i => At(i, o)).ToArray())];
    }

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

    /// <summary>The chance of the readings, and of an outcome where its chances are given, under an offset and a shared loss.</summary>
    private double Total(int offset, int row, double[]? chances)
    {
        (int from, int count) = _heard[offset].GetOffsetAndLength(_stray.Length);
        ReadOnlySpan<double> likelihood = _likelihood[offset].AsSpan(from, count);
        ReadOnlySpan<double> place = _rows[row].AsSpan(from, count);
        ReadOnlySpan<double> stray = _stray.AsSpan(from, count);
        double sum = 0;
        for (int i = 0; i < likelihood.Length; i++)
        {
            sum += likelihood[i] * (((1 - StrayWeight) * place[i]) + stray[i]) * (chances?[from + i] ?? 1);
        }

        return _grid.ClearanceStep * sum;
    }

    /// <summary>The cells that the readings leave possible at all: the sums pass over the others.</summary>
    private static Range Heard(double[] likelihood)
    {
        int from = Array.FindIndex(likelihood, l => l > 1e-40);
        return from < 0 ? 0..1 : from..(Array.FindLastIndex(likelihood, l => l > 1e-40) + 1);
    }
}
