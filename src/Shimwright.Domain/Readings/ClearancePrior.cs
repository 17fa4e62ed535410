using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// What is expected of one valve before a check is read: a smooth density for each shared loss (one where it shares none),
/// and the density of a stray, which ends sharply at the middle of the band ± 0.5 mm.
/// </summary>
internal sealed class ClearancePrior
{
    private const double PointsBeyondEnd = 6;

    private Beyond? _beyond;

    private ClearancePrior(UniformGrid grid, ClearanceBand band, double[][] rows, double[] stray, double rowShare = 1)
    {
        Grid = grid;
        Band = band;
        Rows = rows;
        Stray = stray;
        RowShare = rowShare;
        StrayWeights = ClearanceDistribution.StrayWeights(grid, band);
        StrayMass = new double[stray.Length];
        for (int i = 0; i < stray.Length; i++)
        {
            StrayMass[i] = StrayWeights[i] * stray[i];
        }
    }

    /// <summary>The clearances.</summary>
    public UniformGrid Grid { get; }

    /// <summary>The valve's band.</summary>
    public ClearanceBand Band { get; }

    /// <summary>The smooth densities, to be taken times <see cref="RowShare"/>.</summary>
    public double[][] Rows { get; }

    /// <summary>The share of a valve that is no stray.</summary>
    public double RowShare { get; }

    /// <summary>The density of a stray, its weight included.</summary>
    public double[] Stray { get; }

    /// <summary>What each grid point weighs in an integral over a stray.</summary>
    public double[] StrayWeights { get; }

    /// <summary>The probability of a stray at each grid point, for sums over smooth functions.</summary>
    public double[] StrayMass { get; }

    /// <summary>What each row sums up to before a grid point and behind another: the same for all answers of a blade, so that the last ones are kept.</summary>
    public (double[] Below, double[] Above) SumsBeyond(int first, int last)
    {
        if (_beyond is not { } known || known.First != first || known.Last != last)
        {
            known = new(first, last, Array.ConvertAll(Rows, r => Sum(r, 0, first)), Array.ConvertAll(Rows, r => Sum(r, last + 1, r.Length)));
            _beyond = known;
        }

        return (known.Below, known.Above);
    }

    /// <summary>The sum of some of the values.</summary>
    public static double Sum(double[] values, int from, int to)
    {
        double sum = 0;
        for (int i = from; i < to; i++)
        {
            sum += values[i];
        }

        return sum;
    }

    /// <summary>Whether the valve shares a loss with others.</summary>
    public bool IsShared => Rows.Length > 1;

    /// <summary>A valve whose past is unknown.</summary>
    public static ClearancePrior Unknown(ClearanceBand band, LossTable table, double step)
    {
        var grid = new UniformGrid(band.Middle + table.Lowest, step, table.Rows[0].Length);
        double[] stray = new double[grid.Count];
        Array.Fill(stray, LossPrior.StrayWeight / (2 * LossPrior.StrayReach));
        return new(grid, band, table.Rows, stray, 1 - LossPrior.StrayWeight);
    }

    /// <summary>A valve of a side that was worked on: normal about the middle of its band, cut at ± 0.8 mm.</summary>
    public static ClearancePrior Reworked(ClearanceBand band, double step)
    {
        UniformGrid grid = UniformGrid.Spanning(band.Middle - LossPrior.HeadWorkReach, band.Middle + LossPrior.HeadWorkReach, step);
        double[] row = Array.ConvertAll(
            grid.Points(), c => StandardNormal.Density((c - band.Middle) / LossPrior.HeadWorkStandardDeviation));
        return new(grid, band, [row], new double[grid.Count]);
    }

    /// <summary>A valve of which nothing is known but that it is within 0.5 mm of the middle of its band.</summary>
    public static ClearancePrior Anywhere(ClearanceBand band, double step)
    {
        double reach = LossPrior.StrayReach + (PointsBeyondEnd * step);
        UniformGrid grid = UniformGrid.Spanning(band.Middle - reach, band.Middle + reach, step);
        double[] stray = new double[grid.Count];
        Array.Fill(stray, 1 / (2 * LossPrior.StrayReach));
        return new(grid, band, [new double[grid.Count]], stray);
    }

    /// <summary>A valve of which a distribution is known.</summary>
    /// <param name="known">What is known.</param>
    /// <param name="strayWeight">The weight of a stray beside it.</param>
    public static ClearancePrior Known(ClearanceDistribution known, double strayWeight = 0)
    {
        double[] stray = known.Stray.ToArray();
        for (int i = 0; i < stray.Length; i++)
        {
            stray[i] = (stray[i] * (1 - strayWeight)) + (strayWeight / (2 * LossPrior.StrayReach));
        }

        return new(known.Grid, known.Band, [known.Smooth.ToArray()], stray, 1 - strayWeight);
    }

    /// <summary>Densities on a grid.</summary>
    public static ClearancePrior Of(UniformGrid grid, ClearanceBand band, double[] smooth, double[] stray) => new(grid, band, [smooth], stray);

    private sealed record Beyond(int First, int Last, double[] Below, double[] Above);
}
