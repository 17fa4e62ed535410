using Shimwright.Domain.Planning;
using Shimwright.Domain.Shims;

namespace Shimwright.Jobs;

/// <summary>Shims that nobody has seen yet: each valve has the same, and what is for sale lies whole steps up and down from it.</summary>
/// <param name="Fitted">What is in the engine.</param>
/// <param name="Stock">What can be bought.</param>
internal sealed record AssumedShims(IReadOnlyList<Thickness> Fitted, Stock Stock)
{
    /// <summary>Any thickness in the middle of what there is, mm: only steps count.</summary>
    private const double Middle = 2.5;

    private const int Steps = 12;

    /// <summary>Sizes of shims where none is on offer, mm. Common practice, no source.</summary>
    private const double UsualStep = 0.05;

    public static AssumedShims Of(int valves, Stock stock, Instrument marked)
    {
        double[] sizes = [.. stock.Sizes.Select(s => s.Thickness.Millimetres).Order()];
        double step = sizes.Zip(sizes.Skip(1), (a, b) => Math.Round(b - a, 6)).Where(d => d > PlanRules.LikeForLike).DefaultIfEmpty(UsualStep).Min();
        double price = stock.Sizes.Count == 0 ? 0 : stock.Sizes.Min(s => s.Price);
        static bool IsShim(double thickness) => thickness is >= Thickness.Thinnest and <= Thickness.Thickest;
        Thickness At(int k) => new(Middle + (k * step), marked);
        return new(
            [.. Enumerable.Repeat(At(0), valves)],
            new Stock([], [.. Enumerable.Range(-Steps, (2 * Steps) + 1).Where(k => k != 0 && IsShim(Middle + (k * step)))
                .Select(k => new PurchasableSize(At(k), price))]));
    }
}
