using Shimwright.Domain.Numerics;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Drawer;

/// <summary>What a kit is worth for a fleet.</summary>
/// <param name="Kit">The kit.</param>
/// <param name="Wanted">How many shims will be wanted, on average.</param>
/// <param name="Passing">How many of them the kit has, and which put their valve in band, on average.</param>
/// <param name="IsDominated">Whether another kit serves at least as many for no more, and is better in one of the two.</param>
/// <param name="Gain">What the served valves are worth, less the price.</param>
public sealed record KitOffer(Kit Kit, double Wanted, double Passing, bool IsDominated, double Gain)
{
    /// <summary>Thicknesses foreseen are taken together in parts of the error as wide as this, and in no more than so many a size.</summary>
    private const double PartOfError = 0.3;

    private const int MostParts = 400;

    private const double Deviations = 6;

    /// <summary>Chances below this are let go.</summary>
    private const double Negligible = 1e-9;

    /// <summary>The share of what will be wanted that the kit serves.</summary>
    public double Share => Wanted > 0 ? Passing / Wanted : 0;

    /// <summary>
    /// Compares kits. A valve takes the size nearest to what it turns out to want, as long as the kit has one left; it passes with
    /// the chance that the size, give or take the error of fitting, lands in its band.
    /// </summary>
    /// <param name="kits">The kits.</param>
    /// <param name="wants">The valves that will want a shim, independent of each other.</param>
    /// <param name="error">Standard deviation between the thickness wanted and what a shim makes of the gap, mm, above 0: reading, marks, seating.</param>
    /// <param name="worth">What it is worth to have a passing shim at hand, in the currency of the prices, 0 or more.</param>
    /// <returns>One offer a kit, the greatest gain first; ties go to the cheaper.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="kits"/> or <paramref name="wants"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="error"/> or <paramref name="worth"/> is outside its range.</exception>
    public static IReadOnlyList<KitOffer> Compare(IReadOnlyList<Kit> kits, IReadOnlyList<ThicknessWant> wants, double error, double worth)
    {
        ArgumentNullException.ThrowIfNull(kits);
        ArgumentNullException.ThrowIfNull(wants);
        Guard.Within(error, 1e-6, 10);
        Guard.Within(worth, 0, 1e12);
        double wanted = wants.Sum(w => w.Wanted);
        (Kit Kit, double Passing)[] served = [.. kits.Select(k => (k, Serve(k, wants, error)))];
        return
        [
            .. served
                .Select(s => new KitOffer(
                    s.Kit, wanted, s.Passing,
                    served.Any(o => o.Passing >= s.Passing && o.Kit.Price <= s.Kit.Price && (o.Passing > s.Passing || o.Kit.Price < s.Kit.Price)),
                    (worth * s.Passing) - s.Kit.Price))
                .OrderByDescending(o => o.Gain).ThenBy(o => o.Kit.Price),
        ];
    }

    /// <summary>Σ over sizes: what the stock of a size serves of its demand, times the chance that what it is put into passes.</summary>
    private static double Serve(Kit kit, IReadOnlyList<ThicknessWant> wants, double error)
    {
        double[] sizes = [.. kit.Sizes.Sizes(Instrument.Marked).Select(s => s.Thickness.Millimetres)];
        var takes = new List<double>[sizes.Length];
        double[] passes = new double[sizes.Length];
        foreach (ThicknessWant want in wants)
        {
            foreach ((int size, double taken, double passing) in Choices(sizes, want, error))
            {
                (takes[size] ??= []).Add(taken);
                passes[size] += passing;
            }
        }

        double served = 0;
        for (int s = 0; s < sizes.Length; s++)
        {
            if (takes[s] is { } chances && chances.Sum() is > 0 and var mean)
            {
                served += CountDistribution.OfChances(chances).ServedBy(kit.Each) * passes[s] / mean;
            }
        }

        return served;
    }

    /// <summary>Which sizes a valve may come to take, with what chance, and with what chance it then passes too.</summary>
    private static IEnumerable<(int Size, double Taken, double Passing)> Choices(double[] sizes, ThicknessWant want, double error)
    {
        double low = want.Middle - (Deviations * want.WholeStandardDeviation);
        double high = want.Middle + (Deviations * want.WholeStandardDeviation);
        for (int s = Nearest(sizes, low); s <= Nearest(sizes, high); s++)
        {
            double from = s == 0 ? low : Math.Max(low, (sizes[s - 1] + sizes[s]) / 2);
            double to = s == sizes.Length - 1 ? high : Math.Min(high, (sizes[s] + sizes[s + 1]) / 2);
            double taken = to > from ? want.UpTo(to) - want.UpTo(from) : 0;
            if (taken > Negligible)
            {
                yield return (s, Math.Min(1, taken), PassingWith(want, sizes[s], (from, to), error));
            }
        }
    }

    /// <summary>The chance that a valve takes a size, for a thickness in its range, and passes with it.</summary>
    private static double PassingWith(ThicknessWant want, double size, (double From, double To) range, double error)
    {
        int parts = (int)Math.Clamp(Math.Ceiling((range.To - range.From) / (error * PartOfError)), 1, MostParts);
        double step = (range.To - range.From) / parts;
        double passing = 0;
        double before = want.UpTo(range.From);
        for (int i = 0; i < parts; i++)
        {
            double then = want.UpTo(range.From + ((i + 1) * step));
            double off = size - (range.From + ((i + 0.5) * step));
            passing += (then - before) * (NormalTable.Cdf((want.Tolerance - off) / error) - NormalTable.Cdf((-want.Tolerance - off) / error));
            before = then;
        }

        return passing;
    }

    private static int Nearest(double[] sizes, double thickness)
    {
        int at = Array.BinarySearch(sizes, thickness);
        int above = Math.Clamp(at < 0 ? ~at : at, 0, sizes.Length - 1);
        int below = Math.Max(0, above - 1);
        return thickness - sizes[below] <= sizes[above] - thickness ? below : above;
    }
}
