using Shimwright.Domain.Numerics;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Drawer;

/// <summary>A box of shims that can be bought: a row of sizes, so many of each.</summary>
public sealed record Kit
{
    /// <summary>Makes a kit.</summary>
    /// <param name="sizes">Its sizes; the price of a single one in it does not count here.</param>
    /// <param name="each">How many of each size, 1 or more.</param>
    /// <param name="price">Price of the whole kit, 0 or more.</param>
    /// <exception cref="ArgumentNullException"><paramref name="sizes"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="each"/> or <paramref name="price"/> is outside its range.</exception>
    public Kit(SizeRange sizes, int each, double price)
    {
        ArgumentNullException.ThrowIfNull(sizes);
        ArgumentOutOfRangeException.ThrowIfLessThan(each, 1);
        Sizes = sizes;
        Each = each;
        Price = Guard.Within(price, 0, 1e12);
    }

    /// <summary>Its sizes.</summary>
    public SizeRange Sizes { get; }

    /// <summary>How many of each size.</summary>
    public int Each { get; }

    /// <summary>Price of the whole kit.</summary>
    public double Price { get; }
}
