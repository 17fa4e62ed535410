using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Drawer;

/// <summary>What to order of one size.</summary>
/// <param name="Size">The size, mm.</param>
/// <param name="Wanted">How many will be wanted.</param>
/// <param name="OnHand">How many there are, and are free.</param>
/// <param name="Level">The stock that covers the demand with the service level.</param>
/// <param name="CoveredNow">The chance that what is there will do.</param>
/// <param name="CoveredThen">The chance that it will do once the order is in.</param>
/// <param name="Price">Price of one, or null where the size cannot be bought.</param>
public sealed record OrderLine(double Size, CountDistribution Wanted, int OnHand, int Level, double CoveredNow, double CoveredThen, double? Price)
{
    /// <summary>How many to order now; 0 where there are enough or none can be bought.</summary>
    public int ToOrder => Price is null ? 0 : Math.Max(0, Level - OnHand);

    /// <summary>How many are missing and cannot be bought.</summary>
    public int Missing => Price is null ? Math.Max(0, Level - OnHand) : 0;

    /// <summary>What the order costs.</summary>
    public double Cost => ToOrder * (Price ?? 0);
}

/// <summary>What to order so that every size is there with the service level, given what is in the drawer.</summary>
/// <param name="Lines">One a size that may be wanted, thinnest first.</param>
/// <param name="ServiceLevel">The chance asked for, size by size.</param>
public sealed record OrderList(IReadOnlyList<OrderLine> Lines, double ServiceLevel)
{
    private const double SameSize = 1e-6;

    /// <summary>What all orders cost.</summary>
    public double Cost => Lines.Sum(l => l.Cost);

    /// <summary>The chance that no size runs out once the order is in, the sizes taken as independent.</summary>
    public double AllCovered => Lines.Aggregate(1.0, (all, l) => all * l.CoveredThen);

    /// <summary>Makes the list.</summary>
    /// <param name="demand">How many of each size will be wanted.</param>
    /// <param name="onHand">How many of a size (mm) are in the drawer and free.</param>
    /// <param name="price">Price of one of a size (mm), or null where it cannot be bought.</param>
    /// <param name="serviceLevel">How often the drawer should have what is wanted of a size, 0 to 1.</param>
    /// <returns>The list.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="demand"/>, <paramref name="onHand"/> or <paramref name="price"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="serviceLevel"/> is outside its range, or <paramref name="onHand"/> gives less than 0.</exception>
    /// <exception cref="ArgumentException">The sizes of <paramref name="demand"/> do not rise.</exception>
    public static OrderList For(
        IReadOnlyList<SizeDemand> demand, Func<double, int> onHand, Func<double, double?> price, double serviceLevel = 0.90)
    {
        ArgumentNullException.ThrowIfNull(demand);
        ArgumentNullException.ThrowIfNull(onHand);
        ArgumentNullException.ThrowIfNull(price);
        Guard.Within(serviceLevel, 0, 1);
        if (demand.Zip(demand.Skip(1)).Any(d => d.Second.Size - d.First.Size < SameSize))
        {
            throw new ArgumentException("Each size once, thinnest first.", nameof(demand));
        }

        return new([.. demand.Select(d => Line(d, onHand(d.Size), price(d.Size), serviceLevel))], serviceLevel);
    }

    private static OrderLine Line(SizeDemand demand, int onHand, double? price, double serviceLevel)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(onHand);
        int level = demand.Wanted.Covering(serviceLevel);
        int then = price is null ? onHand : Math.Max(onHand, level);
        return new(demand.Size, demand.Wanted, onHand, level, demand.Wanted.AtMost(onHand), demand.Wanted.AtMost(then), price);
    }
}
