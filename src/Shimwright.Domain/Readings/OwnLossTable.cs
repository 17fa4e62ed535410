using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>The density of a valve's place about the middle of its band, less the shared loss, tabulated once a band width.</summary>
internal sealed class OwnLossTable
{
    private const double Sigmas = 8;
    private const double OwnMeans = 18;
    private const double SpareCells = 6;

    public OwnLossTable(double bandWidth, LossPrior loss, Resolution resolution)
    {
        double scale = Resolution.BandScale(bandWidth);
        double stray = LossPrior.StrayReach + (SpareCells * resolution.Step);
        double below = Math.Max(stray, LossPrior.GreatestShared + (Sigmas * scale) + (OwnMeans * loss.Own));
        double above = Math.Max(stray, Sigmas * scale);
        UniformGrid grid = UniformGrid.Spanning(-below, above, resolution.Step);
        Lowest = grid.Start;
        Points = grid.Count;
        Density = new double[grid.Count + ((resolution.Losses - 1) * resolution.StepsPerLoss)];
        double beyond = (Sigmas + 1) * scale;
        for (int i = 0; i < Density.Length && grid.At(i) < beyond; i++)
        {
            Density[i] = loss.OwnDensity(grid.At(i), scale);
        }
    }

    /// <summary>The lowest clearance of the valve's grid, relative to the middle of the band, mm.</summary>
    public double Lowest { get; }

    /// <summary>Points of the valve's grid.</summary>
    public int Points { get; }

    /// <summary>The density from <see cref="Lowest"/> on, long enough to slide by the greatest shared loss.</summary>
    public double[] Density { get; }
}
