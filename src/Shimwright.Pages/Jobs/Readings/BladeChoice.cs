using Shimwright.Domain.Engines;

namespace Shimwright.Pages.Jobs.Readings;

/// <summary>Which blades are offered at once and which behind a fold, each thin ones first.</summary>
/// <param name="Near">Those that can say something of this valve.</param>
/// <param name="Others">The rest of the set.</param>
internal sealed record BladeChoice(IReadOnlyList<double> Near, IReadOnlyList<double> Others)
{
    private const int Most = 8;
    private const int Fewest = 4;

    /// <summary>How far from the band and from what is expected a blade still says something, mm: beyond it every feel is known beforehand. Common practice, no source.</summary>
    private const double Reach = 0.055;

    public static BladeChoice For(IEnumerable<double> blades, ClearanceBand band, double expected, double? suggested)
    {
        double[] nearFirst = [.. blades.OrderByDescending(b => b == suggested).ThenBy(b => Math.Round(Distance(b, band, expected), 9)).ThenBy(b => b)];
        double[] near = [.. nearFirst.Where((b, i) => i < Fewest || Distance(b, band, expected) <= Reach).Take(Most).Order()];
        return new(near, [.. nearFirst.Except(near).Order()]);
    }

    private static double Distance(double blade, ClearanceBand band, double expected) => Math.Min(
        Math.Abs(blade - expected),
        Math.Max(0, Math.Max(band.Low - blade, blade - band.High)));
}
