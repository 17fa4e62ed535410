using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>A clearance that is normally distributed, on a grid.</summary>
internal static class NormalClearance
{
    private const double Sigmas = 8;
    private const double PointsPerScale = 4;
    private const int MostPointsEachWay = 2000;

    /// <summary>On a grid that is fine enough for itself and for readings of this scale.</summary>
    public static ClearanceDistribution On(ClearanceBand band, double mean, double sd, double readingScale)
    {
        double reach = Sigmas * sd;
        double step = Math.Max(Math.Min(sd, readingScale) / PointsPerScale, reach / MostPointsEachWay);
        UniformGrid grid = UniformGrid.Spanning(mean - reach, mean + reach, step);
        double[] smooth = Array.ConvertAll(grid.Points(), c => StandardNormal.Density((c - mean) / sd));
        return new ClearanceDistribution(grid, band, smooth, new double[grid.Count]);
    }
}
