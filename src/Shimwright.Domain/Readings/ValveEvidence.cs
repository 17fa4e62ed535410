using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// One valve's readings against every shared loss: how well each loss explains them, and what the clearance is
/// where that loss is true. The own part of the expectation is one table that slides along the grid as the
/// shared loss grows.
/// </summary>
internal sealed class ValveEvidence
{
    private readonly UniformGrid _grid;
    private readonly ClearanceBand _band;
    private readonly OwnLossTable _table;
    private readonly Resolution _resolution;
    private readonly double[] _likelihood;
    private readonly double _strayEvidence;
    private readonly double[] _evidence;

    public ValveEvidence(
        Valve valve, ValveReadings readings, EngineCheck check, Resolution resolution, OwnLossTable table)
    {
        _band = valve.Band;
        _table = table;
        _resolution = resolution;
        _grid = new UniformGrid(valve.Band.Middle + table.Lowest, resolution.Step, table.Points);
        _likelihood = Likelihood.On(_grid, readings, check.Thermal, check.Feel);
        _strayEvidence = VectorMath.Dot(StrayDensityWeights(), _likelihood);
        _evidence = new double[resolution.Losses];
        for (int k = 0; k < _evidence.Length; k++)
        {
            _evidence[k] =
                ((1 - LossPrior.StrayWeight) * resolution.Step * VectorMath.Dot(Own(k), _likelihood))
                + (LossPrior.StrayWeight * _strayEvidence);
        }
    }

    /// <summary>The chance of the readings under each shared loss, up to a factor that is the same for all.</summary>
    public ReadOnlySpan<double> Evidence => _evidence;

    /// <summary>The clearance averaged over shared losses with these weights.</summary>
    public ClearanceDistribution Average(ReadOnlySpan<double> lossWeights)
    {
        double[] smooth = new double[_grid.Count];
        double strayShare = 0;
        for (int k = 0; k < _evidence.Length; k++)
        {
            double factor = lossWeights[k] / _evidence[k];
            strayShare += factor;
            if (factor > 0)
            {
                VectorMath.AddScaled(smooth, Own(k), (1 - LossPrior.StrayWeight) * factor);
            }
        }

        double[] stray = new double[_grid.Count];
        double strayDensity = LossPrior.StrayWeight * strayShare / (2 * LossPrior.StrayReach);
        for (int i = 0; i < smooth.Length; i++)
        {
            smooth[i] *= _likelihood[i];
            stray[i] = strayDensity * _likelihood[i];
        }

        return new ClearanceDistribution(_grid, _band, smooth, stray);
    }

    /// <summary>For each shared loss, the chance that the valve is in its band as it stands; where weights are given, that it stays there.</summary>
    public double[] InBandGivenLoss(SurvivalWeights? staying)
    {
        if (staying is not null)
        {
            return Conditional((double[])staying.Smooth.Clone(), staying.Stray);
        }

        double[] smooth = CubicRule.Weights(_grid, _band.Low, _band.High);
        double[] stray = CubicRule.Weights(
            _grid,
            Math.Max(_band.Low, _band.Middle - LossPrior.StrayReach),
            Math.Min(_band.High, _band.Middle + LossPrior.StrayReach));
        return Conditional(smooth, stray);
    }

    /// <summary>For each shared loss, the chance of landing in the band; chances are those at each grid point.</summary>
    public double[] LandingGivenLoss(ReadOnlySpan<double> chances)
    {
        double[] smooth = new double[_grid.Count];
        double[] stray = ClearanceDistribution.StrayWeights(_grid, _band);
        for (int i = 0; i < smooth.Length; i++)
        {
            smooth[i] = chances[i] * _grid.Step;
            stray[i] *= chances[i];
        }

        return Conditional(smooth, stray);
    }

    private double[] Conditional(double[] smooth, double[] stray)
    {
        double strayPart = VectorMath.Dot(stray, _likelihood) / (2 * LossPrior.StrayReach);
        for (int i = 0; i < smooth.Length; i++)
        {
            smooth[i] *= _likelihood[i];
        }

        double[] chances = new double[_evidence.Length];
        for (int k = 0; k < chances.Length; k++)
        {
            double joint =
                ((1 - LossPrior.StrayWeight) * VectorMath.Dot(Own(k), smooth))
                + (LossPrior.StrayWeight * strayPart);
            chances[k] = Math.Clamp(joint / _evidence[k], 0, 1);
        }

        return chances;
    }

    private double[] StrayDensityWeights() =>
        Array.ConvertAll(ClearanceDistribution.StrayWeights(_grid, _band), w => w / (2 * LossPrior.StrayReach));

    /// <summary>The own-loss density at each grid point where the shared loss is number <paramref name="loss"/>.</summary>
    private ReadOnlySpan<double> Own(int loss) =>
        _table.Density.AsSpan(loss * _resolution.StepsPerLoss, _grid.Count);
}
