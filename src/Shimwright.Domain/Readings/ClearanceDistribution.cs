using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// The distribution of one valve's clearance on a grid: a smooth part, and a stray part that ends sharply at the
/// middle of the band ± 0.5 mm. Immutable; probabilities add up to 1.
/// </summary>
public sealed class ClearanceDistribution
{
    private const double CentralShare = 0.95;
    private readonly double[] _smooth;
    private readonly double[] _stray;
    private readonly double[] _mass;
    private readonly double[] _massBelow;

    /// <summary>Takes over the two densities, which need not be normalised.</summary>
    /// <param name="grid">The clearances.</param>
    /// <param name="band">The valve's band.</param>
    /// <param name="smooth">The smooth part.</param>
    /// <param name="stray">The stray part.</param>
    /// <param name="strayWeights"><see cref="StrayWeights"/>, where they are at hand.</param>
    internal ClearanceDistribution(UniformGrid grid, ClearanceBand band, double[] smooth, double[] stray, double[]? strayWeights = null)
    {
        Grid = grid;
        Band = band;
        strayWeights ??= StrayWeights(grid, band);
        double total = (grid.Step * smooth.Sum()) + VectorMath.Dot(strayWeights, stray);
        _smooth = Array.ConvertAll(smooth, d => d / total);
        _stray = Array.ConvertAll(stray, d => d / total);
        _mass = new double[grid.Count];
        _massBelow = new double[grid.Count + 1];
        double mean = 0;
        for (int i = 0; i < _mass.Length; i++)
        {
            _mass[i] = (grid.Step * _smooth[i]) + (strayWeights[i] * _stray[i]);
            _massBelow[i + 1] = _massBelow[i] + _mass[i];
            mean += _mass[i] * grid.At(i);
        }

        Mean = mean;
        double variance = 0;
        for (int i = 0; i < _mass.Length; i++)
        {
            variance += _mass[i] * Squares.Of(grid.At(i) - mean);
        }

        StandardDeviation = Math.Sqrt(Math.Max(0, variance));
        InBand = Probability(band.Low, band.High);
    }

    /// <summary>The band that this valve is judged by.</summary>
    public ClearanceBand Band { get; }

    /// <summary>Expected clearance, mm.</summary>
    public double Mean { get; }

    /// <summary>Standard deviation, mm.</summary>
    public double StandardDeviation { get; }

    /// <summary>The chance that the clearance lies in the band.</summary>
    public double InBand { get; }

    internal UniformGrid Grid { get; }

    internal ReadOnlySpan<double> Smooth => _smooth;

    internal ReadOnlySpan<double> Stray => _stray;

    /// <summary>The probability that sits at each grid point, for sums over smooth functions.</summary>
    internal ReadOnlySpan<double> Mass => _mass;

    /// <summary>The chance of a clearance in [low, high].</summary>
    /// <param name="low">Lower end, mm; may be -∞.</param>
    /// <param name="high">Upper end, mm; may be +∞.</param>
    /// <returns>A probability.</returns>
    public double Probability(double low, double high) =>
        Math.Clamp(MassOver(low, high).Sum(), 0, 1);

    /// <summary>The chance of being in the band and staying there.</summary>
    internal double InBandStaying(SurvivalWeights staying) =>
        Math.Clamp(VectorMath.Dot(staying.Smooth, _smooth) + VectorMath.Dot(staying.Stray, _stray), 0, 1);

    /// <summary>The probability at each grid point that belongs to [low, high].</summary>
    internal double[] MassOver(double low, double high)
    {
        double[] part = CubicRule.Weights(Grid, low, high);
        double[] strayPart = CubicRule.Weights(
            Grid, Math.Max(low, Band.Middle - LossPrior.StrayReach), Math.Min(high, Band.Middle + LossPrior.StrayReach));
        for (int i = 0; i < part.Length; i++)
        {
            part[i] = (part[i] * _smooth[i]) + (strayPart[i] * _stray[i]);
        }

        return part;
    }

    /// <summary>The clearance below which a share of the probability lies.</summary>
    /// <param name="share">The share, inside (0, 1).</param>
    /// <returns>The quantile, mm.</returns>
    public double Quantile(double share)
    {
        // The masses place the quantile to a cell or so; inside, the cubic of the density is followed.
        int guess = Math.Clamp(Array.BinarySearch(_massBelow, share) is var at && at < 0 ? ~at : at, 4, Grid.Count - 4);
        double low = Grid.At(guess - 4);
        double high = Grid.At(guess + 3);
        double below = MassOver(double.NegativeInfinity, low).Sum();
        for (int i = 0; i < 40; i++)
        {
            double middle = (low + high) / 2;
            double step = LocalProbability(low, middle);
            if (below + step < share)
            {
                (low, below) = (middle, below + step);
            }
            else
            {
                high = middle;
            }
        }

        return (low + high) / 2;
    }

    /// <summary>The estimate in the form in which it is shown.</summary>
    /// <returns>Mean, standard deviation, central 95 % interval and the chance of being in band.</returns>
    public ClearanceEstimate Summarise() =>
        new(Mean, StandardDeviation, Quantile((1 - CentralShare) / 2), Quantile((1 + CentralShare) / 2), InBand);

    /// <summary>The probability of the grid points from first to last.</summary>
    internal double MassOfPoints(int first, int last) => first == last ? _mass[first] : _massBelow[last + 1] - _massBelow[first];

    internal static double[] StrayWeights(UniformGrid grid, ClearanceBand band) =>
        CubicRule.Weights(grid, band.Middle - LossPrior.StrayReach, band.Middle + LossPrior.StrayReach);

    /// <summary>The probability of [low, high] where the two lie a few cells apart.</summary>
    private double LocalProbability(double low, double high)
    {
        double strayLow = Math.Max(low, Band.Middle - LossPrior.StrayReach);
        double strayHigh = Math.Min(high, Band.Middle + LossPrior.StrayReach);
        return LocalIntegral(_smooth, low, high) + (strayHigh > strayLow ? LocalIntegral(_stray, strayLow, strayHigh) : 0);
    }

    private double LocalIntegral(double[] density, double low, double high)
    {
        double from = Grid.Position(low);
        double to = Grid.Position(high);
        double sum = 0;
        for (int cell = Math.Max(0, (int)from); cell <= Math.Min(to, Grid.Count - 2); cell++)
        {
            sum += CubicRule.Cell(density, cell, Math.Max(from, cell) - cell, Math.Min(to, cell + 1) - cell, Grid.Step);
        }

        return sum;
    }
}
