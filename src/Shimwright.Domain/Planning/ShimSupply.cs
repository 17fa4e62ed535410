using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Planning;

/// <summary>
/// The shims that a valve could get. Those that exist once are pieces; a column is one of them: first those in the engine (column v is the shim of
/// valve v), then those of the drawer, as many of one thickness as there are valves at most. Sizes for sale can be had in any number.
/// </summary>
internal sealed class ShimSupply
{
    /// <summary>Thicknesses of the drawer, and of those for sale, that are looked at for one valve: more are hardly ever near enough.</summary>
    private const int MostThicknesses = 400;

    private readonly PurchasableSize[] _sizes;

    public ShimSupply(int valves, IReadOnlyList<Thickness> fitted, Stock stock)
    {
        // A size that is offered twice is bought where it is cheaper.
        _sizes = [.. stock.Sizes.GroupBy(s => s.Thickness).Select(g => g.MinBy(s => s.Price)!)];
        List<Piece> pieces = [.. fitted.Select((t, v) => new Piece(t, ShimSource.Engine, v, v, 1))];
        Columns = valves;
        foreach (IGrouping<Thickness, DrawerShims> same in stock.Drawer.GroupBy(d => d.Thickness))
        {
            int count = (int)Math.Min(valves, same.Sum(d => (long)d.Count));
            if (count > 0)
            {
                pieces.Add(new Piece(same.Key, ShimSource.Drawer, null, Columns, count));
                Columns += count;
            }
        }

        Pieces = pieces;
    }

    /// <summary>How many columns there are.</summary>
    public int Columns { get; }

    /// <summary>What exists once: the shims in the engine, then those of the drawer by thickness.</summary>
    public IReadOnlyList<Piece> Pieces { get; }

    /// <summary>The pieces that are near enough to what a valve wants, mm; that is asked for only where there are very many.</summary>
    public IEnumerable<Piece> PiecesNear(Func<double> wanted) => NearestTo(wanted, Pieces, p => p.Thickness);

    /// <summary>The sizes for sale that are near enough to what a valve wants, mm; that is asked for only where there are very many.</summary>
    public IEnumerable<PurchasableSize> SizesNear(Func<double> wanted) => NearestTo(wanted, _sizes, s => s.Thickness);

    /// <summary>The shims nearest to what a valve wants; of those that lie closer together than so many mm one stands for all that are got in the same way.</summary>
    public IReadOnlyList<Shim> Spread(double wanted, double apart, int most, Func<Shim, bool> isFree)
    {
        List<Shim> taken = [];
        foreach (Shim near in PiecesNear(() => wanted).Select(p => new Shim(p.Thickness, p.Source, p.FromValve, 0))
            .Concat(SizesNear(() => wanted).Select(s => new Shim(s.Thickness, ShimSource.Buy, null, s.Price)))
            .OrderBy(s => Math.Abs(s.Thickness.Millimetres - wanted)))
        {
            if (taken.Count == most)
            {
                break;
            }

            if (!taken.Any(t => IsAlike(t, near) && Math.Abs(t.Thickness.Millimetres - near.Thickness.Millimetres) < apart) && isFree(near))
            {
                taken.Add(near);
            }
        }

        return taken;
    }

    private static bool IsAlike(Shim one, Shim other) => one.Price == other.Price && one.Thickness.By == other.Thickness.By;

    /// <summary>Of very many thicknesses those nearest to what is wanted, in their order.</summary>
    private static IEnumerable<T> NearestTo<T>(Func<double> wantedOf, IReadOnlyList<T> all, Func<T, Thickness> thicknessOf)
    {
        if (all.Count <= MostThicknesses)
        {
            return all;
        }

        double wanted = wantedOf();
        double farthest = all.Select(t => Math.Abs(thicknessOf(t).Millimetres - wanted)).Order().ElementAt(MostThicknesses - 1);
        return all.Where(t => Math.Abs(thicknessOf(t).Millimetres - wanted) <= farthest).Take(2 * MostThicknesses);
    }

    /// <summary>Shims of one thickness in one place.</summary>
    internal readonly record struct Piece(Thickness Thickness, ShimSource Source, int? FromValve, int First, int Count);

    /// <summary>One shim that could be fitted, and its price.</summary>
    internal readonly record struct Shim(Thickness Thickness, ShimSource Source, int? FromValve, double Price);
}
