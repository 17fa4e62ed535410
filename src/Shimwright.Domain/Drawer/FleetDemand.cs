namespace Shimwright.Domain.Drawer;

/// <summary>How many shims of each size a fleet will want at its checks.</summary>
/// <param name="Sizes">Each size that may be wanted, thinnest first.</param>
/// <param name="Wanted">How many shims will be wanted in all, on average.</param>
/// <param name="Thinner">How many of them thinner than any size would do for, on average.</param>
/// <param name="Thicker">How many of them thicker than any size would do for, on average.</param>
public sealed record FleetDemand(IReadOnlyList<SizeDemand> Sizes, double Wanted, double Thinner, double Thicker)
{
    /// <summary>Chances below this are let go.</summary>
    private const double Negligible = 1e-9;

    /// <summary>How many are wanted of which no size would put the valve in band, on average: too thin, too thick, or between two sizes.</summary>
    public double Unserved => Math.Max(0, Wanted - Sizes.Sum(s => s.Wanted.Mean));

    /// <summary>
    /// Adds up what engines will want. A valve takes the size nearest to what it wants, as long as that size puts it in band; the
    /// valves of an engine, and engines, are independent.
    /// </summary>
    /// <param name="engines">What the valves of each engine will want.</param>
    /// <param name="sizes">The sizes, mm, thinnest first, each once.</param>
    /// <returns>The demand.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="engines"/> or <paramref name="sizes"/> is null.</exception>
    /// <exception cref="ArgumentException"><paramref name="sizes"/> do not rise.</exception>
    public static FleetDemand Of(IEnumerable<IReadOnlyList<ThicknessWant>> engines, IReadOnlyList<double> sizes)
    {
        ArgumentNullException.ThrowIfNull(engines);
        ArgumentNullException.ThrowIfNull(sizes);
        if (sizes.Zip(sizes.Skip(1)).Any(s => s.Second <= s.First))
        {
            throw new ArgumentException("Each size once, thinnest first.", nameof(sizes));
        }

        List<EngineWant> wants = [];
        double wanted = 0;
        double thinner = 0;
        double thicker = 0;
        foreach (IReadOnlyList<ThicknessWant> valves in engines)
        {
            wanted += valves.Sum(v => v.Wanted);
            thinner += sizes.Count == 0 ? 0 : valves.Sum(v => v.UpTo(sizes[0] - v.Tolerance));
            thicker += sizes.Count == 0 ? 0 : valves.Sum(v => v.UpTo(double.MaxValue) - v.UpTo(sizes[^1] + v.Tolerance));
            wants.AddRange(OfEngine(valves, sizes));
        }

        return new(SizeDemand.Of(wants), wanted, thinner, thicker);
    }

    /// <summary>The chance that a valve takes each size.</summary>
    /// <param name="want">The valve.</param>
    /// <param name="sizes">The sizes, mm, thinnest first.</param>
    /// <returns>The sizes' places with their chances.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="want"/> or <paramref name="sizes"/> is null.</exception>
    public static IEnumerable<(int Size, double Chance)> ChoicesOf(ThicknessWant want, IReadOnlyList<double> sizes)
    {
        ArgumentNullException.ThrowIfNull(want);
        ArgumentNullException.ThrowIfNull(sizes);
        return Enumerable.Range(0, sizes.Count).Select(s => (s, Chance: ChanceOf(want, sizes, s))).Where(c => c.Chance > Negligible);
    }

    private static IEnumerable<EngineWant> OfEngine(IReadOnlyList<ThicknessWant> valves, IReadOnlyList<double> sizes) =>
        valves.SelectMany(v => ChoicesOf(v, sizes)).GroupBy(c => c.Size)
            .Select(g => new EngineWant(sizes[g.Key], CountDistribution.OfChances(g.Select(c => c.Chance))));

    private static double ChanceOf(ThicknessWant want, IReadOnlyList<double> sizes, int size)
    {
        double from = sizes[size] - want.Tolerance;
        double to = sizes[size] + want.Tolerance;
        double reach = 7 * want.WholeStandardDeviation;
        if (from > want.Middle + reach || to < want.Middle - reach)
        {
            return 0;
        }

        from = size > 0 ? Math.Max(from, (sizes[size - 1] + sizes[size]) / 2) : from;
        to = size < sizes.Count - 1 ? Math.Min(to, (sizes[size] + sizes[size + 1]) / 2) : to;
        return want.UpTo(to) - want.UpTo(from);
    }
}
