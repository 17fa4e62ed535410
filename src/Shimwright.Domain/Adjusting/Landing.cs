using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Adjusting;

/// <summary>Where a clearance lands when it is changed, and with what chance in its band.</summary>
public static class Landing
{
    private const double TailSigmas = 8;
    private const double ReachSigmas = 6.5;

    /// <summary>An error on a grid spans so many of its steps at least.</summary>
    private const double LeastStepsPerError = 1.25;

    /// <summary>Into so many blocks the error of a change is divided at least.</summary>
    private const double BlocksPerError = 16;

    /// <summary>The distribution after a change.</summary>
    /// <param name="before">The distribution before it.</param>
    /// <param name="change">The change; its uncertainty is above 0.</param>
    /// <returns>The predicted distribution of the clearance.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="before"/> is null.</exception>
    public static ClearanceDistribution After(this ClearanceDistribution before, ClearanceChange change)
    {
        ArgumentNullException.ThrowIfNull(before);
        return change.IsSet ? SetTo(before, before.Mean + change.Shift, change.Uncertainty) : Moved(before, change);
    }

    /// <summary>The chance of landing in the band after a change.</summary>
    /// <param name="before">The distribution before it.</param>
    /// <param name="change">The change; its uncertainty is above 0.</param>
    /// <returns>A probability.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="before"/> is null.</exception>
    public static double InBandAfter(this ClearanceDistribution before, ClearanceChange change)
    {
        ArgumentNullException.ThrowIfNull(before);
        if (change.IsSet)
        {
            return InBandOff(before.Band, before.Mean + change.Shift - before.Band.Middle, change.Uncertainty);
        }

        (int first, int last) = before.Reach(change);
        int block = before.BlockOf(change);
        double sum = 0;
        for (int i = first; i <= last; i += block)
        {
            // Of several points that the change cannot tell apart the middle one stands for all.
            int end = Math.Min(i + block - 1, last);
            sum += before.MassOfPoints(i, end) * FromPoint(before, (i + end) / 2, change);
        }

        return Math.Clamp(sum, 0, 1);
    }

    /// <summary>How many neighbouring grid points count as one beside the error of a change: 1 where that is not many steps.</summary>
    internal static int BlockOf(this ClearanceDistribution before, ClearanceChange change) =>
        Math.Max(1, (int)(change.Uncertainty / (BlocksPerError * before.Grid.Step)));

    /// <summary>An upper bound of <see cref="InBandAfter"/> for a shim that costs two look-ups.</summary>
    internal static double InBandAfterAtMost(this ClearanceDistribution before, ClearanceChange change)
    {
        (int first, int last) = before.Reach(change);
        return last < first ? 0 : before.MassOfPoints(first, last);
    }

    /// <summary>For each grid point, the chance that a valve there lands in the band when its shim is changed.</summary>
    internal static double[] LandingChances(this ClearanceDistribution before, ClearanceChange change)
    {
        double[] chances = new double[before.Grid.Count];
        (int first, int last) = before.Reach(change);
        for (int i = first; i <= last; i++)
        {
            chances[i] = FromPoint(before, i, change);
        }

        return chances;
    }

    /// <summary>The grid points from which a shim can bring a valve into its band: beyond 6.5 standard deviations the chance is below 1e-10.</summary>
    internal static (int First, int Last) Reach(this ClearanceDistribution before, ClearanceChange change)
    {
        UniformGrid grid = before.Grid;
        double margin = ReachSigmas * change.Uncertainty;
        int first = (int)Math.Ceiling(Math.Clamp(grid.Position(before.Band.Low - change.Shift - margin), 0, grid.Count));
        int last = (int)Math.Floor(Math.Clamp(grid.Position(before.Band.High - change.Shift + margin), -1, grid.Count - 1));
        return (first, last);
    }

    /// <summary>The chance that a gap aimed at a place off the middle of its band lands in it, with a normal error.</summary>
    internal static double InBandOff(ClearanceBand band, double off, double error)
    {
        double half = band.Width / 2;
        return StandardNormal.Between((-half - off) / error, (half - off) / error);
    }

    private static double FromPoint(ClearanceDistribution before, int point, ClearanceChange change)
    {
        double aim = before.Grid.At(point) + change.Shift;
        return NormalTable.Cdf((before.Band.High - aim) / change.Uncertainty) - NormalTable.Cdf((before.Band.Low - aim) / change.Uncertainty);
    }

    private static ClearanceDistribution Moved(ClearanceDistribution before, ClearanceChange change)
    {
        (double shift, UniformGrid grid, ClearanceBand band) = (change.Shift, before.Grid, before.Band);
        double step = grid.Step;
        double error = Math.Max(change.Uncertainty, LeastStepsPerError * step);
        int taps = (int)Math.Ceiling(TailSigmas * error / step);
        double reach = LossPrior.StrayReach + (4 * step);
        int ahead = Math.Max(taps, (int)Math.Ceiling((grid.Start + shift - (band.Middle - reach)) / step));
        double start = grid.Start + shift - (ahead * step);
        double end = Math.Max(grid.End + shift + (taps * step), band.Middle + reach);
        UniformGrid moved = UniformGrid.Spanning(start, end, step);
        double[] kernel = new double[(2 * taps) + 1];
        for (int k = 0; k < kernel.Length; k++)
        {
            kernel[k] = StandardNormal.Density((k - taps) * step / error) / error;
        }

        double[] smooth = new double[moved.Count];
        ReadOnlySpan<double> mass = before.Mass;
        for (int i = 0; i < mass.Length; i++)
        {
            if (mass[i] > 0)
            {
                VectorMath.AddScaled(smooth.AsSpan(i + ahead - taps, kernel.Length), kernel, mass[i]);
            }
        }

        return new ClearanceDistribution(moved, band, smooth, new double[moved.Count]);
    }

    /// <summary>A normal distribution on a grid that reaches as far as the one before, for the same band.</summary>
    private static ClearanceDistribution SetTo(ClearanceDistribution before, double target, double error)
    {
        double reach = TailSigmas * error;
        UniformGrid grid = UniformGrid.Spanning(
            Math.Min(before.Grid.Start, target - reach), Math.Max(before.Grid.End, target + reach), before.Grid.Step);
        double[] smooth = Array.ConvertAll(grid.Points(), c => StandardNormal.Density((c - target) / error));
        return new ClearanceDistribution(grid, before.Band, smooth, new double[grid.Count]);
    }
}
