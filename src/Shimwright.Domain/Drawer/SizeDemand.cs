using Shimwright.Domain.Numerics;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Drawer;

/// <summary>How many of one size one engine will want.</summary>
public sealed record EngineWant
{
    /// <summary>Makes a want.</summary>
    /// <param name="size">The size, mm.</param>
    /// <param name="count">How many of it, with their chances.</param>
    /// <exception cref="ArgumentNullException"><paramref name="count"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="size"/> is outside its range.</exception>
    public EngineWant(double size, CountDistribution count)
    {
        ArgumentNullException.ThrowIfNull(count);
        Size = Guard.Within(size, Thickness.Thinnest, Thickness.Thickest);
        Count = count;
    }

    /// <summary>The size, mm.</summary>
    public double Size { get; }

    /// <summary>How many of it.</summary>
    public CountDistribution Count { get; }
}

/// <summary>How many of a size all engines due will want together.</summary>
/// <param name="Size">The size, mm.</param>
/// <param name="Wanted">How many, with their chances.</param>
public sealed record SizeDemand(double Size, CountDistribution Wanted)
{
    /// <summary>Sizes that are the same but for rounding, mm.</summary>
    private const int Digits = 6;

    /// <summary>Adds the wants of engines that choose independently of each other.</summary>
    /// <param name="wants">What each engine wants; a size may stand there many times.</param>
    /// <returns>The demand of each size, thinnest first.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="wants"/> is null.</exception>
    public static IReadOnlyList<SizeDemand> Of(IEnumerable<EngineWant> wants)
    {
        ArgumentNullException.ThrowIfNull(wants);
        return
        [
            .. wants.GroupBy(w => Math.Round(w.Size, Digits)).OrderBy(g => g.Key)
                .Select(g => new SizeDemand(g.Key, CountDistribution.Sum(g.Select(w => w.Count)))),
        ];
    }
}
