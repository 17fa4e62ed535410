using System.Collections.Concurrent;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>One valve of the slow posterior: plain sums over its clearances, for each shared loss.</summary>
internal sealed class SlowValve
{
    private const double StrayWeight = 0.03;
    private const double StrayReach = 0.5;
    private static readonly ConcurrentDictionary<(SlowGrid Grid, double Width, double Own, double Reach), double[]> Tables = new();
    private readonly Valve _valve;
    private readonly SlowGrid _grid;
    private readonly double[] _likelihood;
    private readonly double[] _own;
    private readonly double _reach;

    public SlowValve(Valve valve, ValveReadings readings, EngineCheck check, SlowGrid grid)
    {
        _valve = valve;
        _grid = grid;
        Losses = grid.Losses;

        // Far enough for the strays, and for the widest part of the expectation.
        double needed = 0.26 + (2 * valve.Band.Width) + (18 * check.Loss.Own);
        _reach = Math.Ceiling(Math.Max(0.52, needed) / grid.ClearanceStep) * grid.ClearanceStep;
        int cells = (int)Math.Round(2 * _reach / grid.ClearanceStep);
        double[] log = [.. Enumerable.Range(0, cells).Select(i => SlowLaw.LogLikelihood(At(i), readings, check))];
        double peak = log.Max();
        _likelihood = [.. log.Select(x => Math.Exp(x - peak))];
        int points = (grid.PerClearance * cells) + (grid.PerLoss * Losses.Length);
        _own = Tables.GetOrAdd(
            (grid, Math.Round(valve.Band.Width, 9), check.Loss.Own, _reach),
            key => SlowLaw.OwnDensity(
                (grid.ClearanceStep / 2) + (grid.LossStep / 2) - key.Reach, grid.TableStep, points, key.Width, key.Own));
        Evidence = [.. Losses.Select((_, k) => Total(k, null))];
    }

    public double[] Losses { get; }

    public ValveSide Side => _valve.Side;

    /// <summary>The chance of the readings under each shared loss, up to one factor.</summary>
    public double[] Evidence { get; }

    public double[] ChancesGivenLoss(Func<double, double> ends)
    {
        double[] chances = [.. _likelihood.Select((_, i) => ends(At(i)))];
        return [.. Losses.Select((_, k) => Total(k, chances) / Evidence[k])];
    }

    /// <summary>The probability of each cell, averaged over the shared losses.</summary>
    public double[] Marginal(double[] lossWeights)
    {
        double[] mass = new double[_likelihood.Length];
        for (int k = 0; k < Losses.Length; k++)
        {
            for (int i = 0; i < mass.Length && lossWeights[k] > 1e-15; i++)
            {
                mass[i] += lossWeights[k] * Joint(i, k) / Evidence[k];
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
    private double Total(int k, double[]? weights)
    {
        double sum = 0;
        for (int i = 0; i < _likelihood.Length; i++)
        {
            sum += weights is null ? Joint(i, k) : weights[i] * Joint(i, k);
        }

        return sum;
    }

    /// <summary>The chance of cell i and of the readings, where the shared loss is number k.</summary>
    private double Joint(int i, int k)
    {
        double stray = Math.Abs(At(i) - _valve.Band.Middle) < StrayReach ? StrayWeight / (2 * StrayReach) : 0;
        return _grid.ClearanceStep * _likelihood[i] * (((1 - StrayWeight) * _own[(_grid.PerClearance * i) + (_grid.PerLoss * k)]) + stray);
    }
}
