using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Shims;

/// <summary>Shims of one thickness in the drawer.</summary>
public sealed record DrawerShims
{
    /// <summary>Makes a line of the drawer.</summary>
    /// <param name="thickness">Their thickness.</param>
    /// <param name="count">How many there are, 0 or more.</param>
    /// <exception cref="ArgumentNullException"><paramref name="thickness"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="count"/> is outside its range.</exception>
    public DrawerShims(Thickness thickness, int count)
    {
        ArgumentNullException.ThrowIfNull(thickness);
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        Thickness = thickness;
        Count = count;
    }

    /// <summary>Their thickness.</summary>
    public Thickness Thickness { get; }

    /// <summary>How many there are.</summary>
    public int Count { get; }
}

/// <summary>A size that can be bought, in any number.</summary>
public sealed record PurchasableSize
{
    /// <summary>Makes a size.</summary>
    /// <param name="thickness">The size, known by its mark.</param>
    /// <param name="price">Price of one, in the bench's currency, 0 or more.</param>
    /// <exception cref="ArgumentNullException"><paramref name="thickness"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="price"/> is outside its range.</exception>
    public PurchasableSize(Thickness thickness, double price)
    {
        ArgumentNullException.ThrowIfNull(thickness);
        Thickness = thickness;
        Price = Guard.Within(price, 0, double.MaxValue);
    }

    /// <summary>The size, known by its mark.</summary>
    public Thickness Thickness { get; }

    /// <summary>Price of one, in the bench's currency.</summary>
    public double Price { get; }
}

/// <summary>What is at hand besides the shims in the engine.</summary>
/// <param name="Drawer">The drawer; the same thickness may stand there more than once.</param>
/// <param name="Sizes">The sizes that can be bought; where one is offered twice the cheaper counts.</param>
public sealed record Stock(IReadOnlyList<DrawerShims> Drawer, IReadOnlyList<PurchasableSize> Sizes)
{
    /// <summary>An empty drawer and no shop.</summary>
    public static Stock Nothing { get; } = new([], []);

    /// <summary>The thinnest shim that the drawer or the shop has, mm; null where there is none.</summary>
    public double? Thinnest => Drawer.Where(d => d.Count > 0).Select(d => d.Thickness)
        .Concat(Sizes.Select(s => s.Thickness)).Select(t => (double?)t.Millimetres).Min();
}

/// <summary>A row of sizes in a catalogue: from, from + step, … up to to.</summary>
public sealed record SizeRange
{
    /// <summary>The most sizes in a range.</summary>
    public const int MostSizes = 2000;

    private const double Slack = 1e-9;

    /// <summary>Makes a range.</summary>
    /// <param name="from">First size, mm.</param>
    /// <param name="to">Last size at most, mm.</param>
    /// <param name="step">Distance of the sizes, mm, above 0.</param>
    /// <param name="price">Price of one, in the bench's currency, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="from"/>, <paramref name="to"/>, <paramref name="step"/> or <paramref name="price"/> is outside its range, or there are more sizes than 2000.</exception>
    public SizeRange(double from, double to, double step, double price)
    {
        From = Guard.Within(from, Thickness.Thinnest, Thickness.Thickest);
        To = Guard.Within(to, from, Thickness.Thickest);
        Step = Guard.Within(step, 1e-6, Thickness.Thickest);
        Price = Guard.Within(price, 0, double.MaxValue);
        Count = CountOf(from, to, step);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(Count, MostSizes, nameof(step));
    }

    /// <summary>First size, mm.</summary>
    public double From { get; }

    /// <summary>Last size at most, mm.</summary>
    public double To { get; }

    /// <summary>Distance of the sizes, mm.</summary>
    public double Step { get; }

    /// <summary>Price of one.</summary>
    public double Price { get; }

    /// <summary>How many sizes there are.</summary>
    public int Count { get; }

    /// <summary>How many sizes such a range has.</summary>
    /// <param name="from">First size, mm.</param>
    /// <param name="to">Last size at most, mm.</param>
    /// <param name="step">Distance of the sizes, mm, above 0.</param>
    /// <returns>The count, capped where it would be absurd.</returns>
    public static int CountOf(double from, double to, double step) =>
        (int)Math.Min(int.MaxValue, Math.Floor(((to - from) / step) + Slack) + 1);

    /// <summary>The sizes, thinnest first.</summary>
    /// <param name="marked">The instrument that stands for a size known by its mark.</param>
    /// <returns>The sizes with their price.</returns>
    public IEnumerable<PurchasableSize> Sizes(Instrument marked) =>
        Enumerable.Range(0, Count).Select(k => new PurchasableSize(
            new Thickness(Math.Min(Thickness.Thickest, Math.Round(From + (k * Step), 9)), marked), Price));
}
