using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// For bands of one width: the density of a valve's place about the middle of its band under each shared loss, one row a
/// loss. A place is (w/4)·Z, less its share l·G of the shared loss and less its own loss; G is gamma with mean 1, so that
/// l·G is the sum of as many exponentials as its shape says. Where wear closes gaps, they are added instead.
/// </summary>
internal sealed class LossTable
{
    private const double Sigmas = 8;
    private const double OwnMeans = 18;
    private const double SpareCells = 6;

    /// <summary>The greatest loss that is considered, mm: beyond lies less than a millionth of any expectation.</summary>
    private const double GreatestLoss = 14;

    /// <summary>How many times the greatest shared loss a share of it is followed to: 1 in 2,000 shares is greater.</summary>
    private const double GreatestShare = 5;

    /// <summary>Over how many millimetres a valve is looked for, at most.</summary>
    public static double ReachOf(double bandWidth, LossPrior loss) =>
        (2 * LossPrior.StrayReach) + Math.Min(GreatestLoss, (GreatestShare * LossPrior.GreatestShared) + (OwnMeans * loss.Own)) + (2 * Sigmas * Resolution.BandScale(bandWidth));

    public LossTable(double bandWidth, LossPrior loss, LossNodes nodes, Resolution resolution, GapSense sense)
    {
        double step = resolution.Step;
        double scale = resolution.Counted(Resolution.BandScale(bandWidth));
        double stray = LossPrior.StrayReach + (SpareCells * step);
        double above = Math.Max(stray, Sigmas * scale);
        double below = Math.Max(stray, Math.Min(GreatestLoss, (GreatestShare * nodes.Losses[^1]) + (OwnMeans * loss.Own)) + (Sigmas * scale));
        UniformGrid grid = UniformGrid.Spanning(-below, above, step);
        double[] own = OwnDensity(grid, loss, scale);
        Rows = Array.ConvertAll(nodes.Losses, l => TakeOff(own, l, step));
        if (sense == GapSense.Closing)
        {
            Array.ForEach(Rows, Array.Reverse);
            grid = new UniformGrid(-grid.End, step, grid.Count);
        }

        Lowest = grid.Start;
    }

    /// <summary>The lowest place of the rows, relative to the middle of the band, mm.</summary>
    public double Lowest { get; }

    /// <summary>One density a shared loss, without the strays.</summary>
    public double[][] Rows { get; }

    private static double[] OwnDensity(UniformGrid grid, LossPrior loss, double scale)
    {
        double[] density = new double[grid.Count];
        double beyond = (Sigmas + 1) * scale;
        for (int i = 0; i < density.Length && grid.At(i) < beyond; i++)
        {
            density[i] = loss.OwnDensity(grid.At(i), scale);
        }

        return density;
    }

    private static double[] TakeOff(double[] own, double shared, double step)
    {
        var part = new ExponentialConvolution(shared / LossPrior.ShareShape, step);
        double[] from = own;
        double[] into = [];
        for (int k = 0; k < LossPrior.ShareShape; k++)
        {
            into = new double[own.Length];
            part.Apply(from, into);
            from = into;
        }

        return into;
    }
}
