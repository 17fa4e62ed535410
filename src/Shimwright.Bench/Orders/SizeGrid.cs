using Shimwright.Bench.Drawer;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Written;

namespace Shimwright.Bench.Orders;

/// <summary>
/// The sizes in which wants are counted: those that can be bought, or those that lie in the drawer where none can be. A shim of the
/// drawer counts for the size nearest to it, if it is no further from it than half the way to the next.
/// </summary>
public sealed class SizeGrid
{
    private const int Digits = 6;

    private readonly SortedDictionary<double, (int Free, double? Price)> _sizes = [];

    private SizeGrid()
    {
    }

    /// <summary>The sizes, mm, thinnest first.</summary>
    public IReadOnlyList<double> Sizes => [.. _sizes.Keys];

    /// <summary>How many are free of what counts for a size.</summary>
    /// <param name="size">One of <see cref="Sizes"/>.</param>
    /// <returns>The number.</returns>
    /// <exception cref="KeyNotFoundException">There is no such size.</exception>
    public int FreeOf(double size) => _sizes[size].Free;

    /// <summary>The price of one, or null where it cannot be bought.</summary>
    /// <param name="size">One of <see cref="Sizes"/>.</param>
    /// <returns>The price, or null.</returns>
    /// <exception cref="KeyNotFoundException">There is no such size.</exception>
    public double? PriceOf(double size) => _sizes[size].Price;

    /// <summary>The grid of what can be bought and of what lies there.</summary>
    /// <param name="buy">What can be bought.</param>
    /// <param name="lots">What lies in the drawer, of one diameter.</param>
    /// <returns>The grid.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static SizeGrid Of(IReadOnlyList<SizesToBuy> buy, IReadOnlyList<ShimLot> lots)
    {
        ArgumentNullException.ThrowIfNull(buy);
        ArgumentNullException.ThrowIfNull(lots);
        var grid = new SizeGrid();
        foreach (PurchasableSize size in buy.SelectMany(k => new SizeRange(k.From, k.To, k.Step, k.Price).Sizes(Instrument.Marked)))
        {
            double at = Math.Round(size.Thickness.Millimetres, Digits);
            grid._sizes[at] = (0, Math.Min(size.Price, grid._sizes.GetValueOrDefault(at).Price ?? double.MaxValue));
        }

        if (grid._sizes.Count == 0)
        {
            foreach (ShimLot lot in lots)
            {
                grid._sizes[lot.Size.ThicknessMm] = (0, null);
            }
        }

        double[] sizes = [.. grid._sizes.Keys];
        foreach (ShimLot lot in lots)
        {
            if (Nearest(sizes, lot.Size.ThicknessMm) is { } at)
            {
                grid._sizes[at] = (grid._sizes[at].Free + lot.Free, grid._sizes[at].Price);
            }
        }

        return grid;
    }

    /// <summary>The size that a thickness counts for; at the ends as far out as the next size is in.</summary>
    private static double? Nearest(double[] sizes, double thickness)
    {
        if (sizes.Length == 0)
        {
            return null;
        }

        int nearest = sizes.Index().MinBy(s => Math.Abs(s.Item - thickness)).Index;
        int neighbour = nearest == sizes.Length - 1 || (nearest > 0 && thickness < sizes[nearest]) ? nearest - 1 : nearest + 1;
        double reach = sizes.Length == 1 ? 0 : Math.Abs(sizes[Math.Max(0, neighbour)] - sizes[nearest]) / 2;
        return Math.Abs(sizes[nearest] - thickness) <= reach + 1e-9 ? sizes[nearest] : null;
    }
}
