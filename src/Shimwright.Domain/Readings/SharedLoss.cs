using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// What the valves of one engine say together about the loss that they share. Two hypotheses, equally likely
/// before the readings: one cause moved all valves, or each side has its own.
/// </summary>
internal sealed class SharedLoss
{
    private readonly Dictionary<ValveSide, double[]> _bySide = [];
    private readonly double[] _together;
    private readonly IReadOnlyList<Valve> _valves;

    public SharedLoss(IReadOnlyList<Valve> valves, IReadOnlyList<ValveEvidence> evidence, LossPrior loss, Resolution resolution)
    {
        _valves = valves;
        double[] logPrior = LogPrior(loss, resolution);
        (_together, double logTogether) = Weigh(logPrior, evidence);
        double logApart = 0;
        foreach (IGrouping<ValveSide, int> side in Enumerable.Range(0, valves.Count).GroupBy(v => valves[v].Side))
        {
            (_bySide[side.Key], double log) = Weigh(logPrior, [.. side.Select(v => evidence[v])]);
            logApart += log;
        }

        SharedCauseProbability = 1 / (1 + Math.Exp(logApart - logTogether));
    }

    /// <summary>The weight of one cause after the readings; 0.5 where the engine has one side only.</summary>
    public double SharedCauseProbability { get; }

    /// <summary>The weight of each shared loss for the valves of a side, over both hypotheses.</summary>
    public double[] Marginal(ValveSide side)
    {
        double[] weights = new double[_together.Length];
        VectorMath.AddScaled(weights, _together, SharedCauseProbability);
        VectorMath.AddScaled(weights, _bySide[side], 1 - SharedCauseProbability);
        return weights;
    }

    /// <summary>
    /// The chance that all of some valves are in band, given for each valve the chance under each shared loss;
    /// null leaves a valve out.
    /// </summary>
    public double ChanceOfAll(IReadOnlyList<double[]?> chances)
    {
        double apart = 1;
        foreach ((ValveSide side, double[] weights) in _bySide)
        {
            apart *= Mean(weights, chances, v => _valves[v].Side == side);
        }

        return Math.Clamp((SharedCauseProbability * Mean(_together, chances, _ => true)) + ((1 - SharedCauseProbability) * apart), 0, 1);
    }

    private static double Mean(double[] weights, IReadOnlyList<double[]?> chances, Func<int, bool> counts)
    {
        double[] product = (double[])weights.Clone();
        for (int v = 0; v < chances.Count; v++)
        {
            if (chances[v] is { } chance && counts(v))
            {
                for (int k = 0; k < product.Length; k++)
                {
                    product[k] *= chance[k];
                }
            }
        }

        return product.Sum();
    }

    /// <summary>ln of the prior probability of each shared loss: exp(-l / scale) on [0, 0.24], renormalised.</summary>
    internal static double[] LogPrior(LossPrior loss, Resolution resolution)
    {
        double step = resolution.Step * resolution.StepsPerLoss;
        var grid = new UniformGrid(0, step, resolution.Losses);
        double[] prior = CubicRule.Weights(grid, 0, grid.End);
        for (int k = 0; k < prior.Length; k++)
        {
            prior[k] *= Math.Exp(-grid.At(k) / loss.Shared);
        }

        double total = prior.Sum();
        return Array.ConvertAll(prior, p => Math.Log(p / total));
    }

    private static (double[] Weights, double LogEvidence) Weigh(double[] logPrior, IReadOnlyList<ValveEvidence> evidence)
    {
        double[] log = (double[])logPrior.Clone();
        foreach (ValveEvidence valve in evidence)
        {
            for (int k = 0; k < log.Length; k++)
            {
                log[k] += Math.Log(valve.Evidence[k]);
            }
        }

        double peak = log.Max();
        double[] weights = Array.ConvertAll(log, l => Math.Exp(l - peak));
        double total = weights.Sum();
        return (Array.ConvertAll(weights, w => w / total), peak + Math.Log(total));
    }
}
