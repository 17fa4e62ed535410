using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Planning;

/// <summary>
/// Points and weights for integrals over a band of something that changes fast near its limits, as the chance to stay in
/// it does: a rule of its own for either end, and shared panels between.
/// </summary>
internal static class BandRule
{
    /// <summary>From how many scales of the ends on nothing of them is felt.</summary>
    private const double EdgeScales = 8;

    /// <summary>More bends than a panel's rule can follow.</summary>
    private const double MostBends = 40;

    /// <summary>The most panels between two places.</summary>
    private const double MostPanels = 24;

    /// <summary>The least length over which something may change in a band of this width, mm: what changes faster is not followed.</summary>
    public static double Finest(double width) => width / (MostBends * MostPanels);

    /// <summary>The rule.</summary>
    /// <param name="band">The band.</param>
    /// <param name="edge">Over what length things change near the ends, mm.</param>
    /// <param name="inner">Over what length they change anywhere, mm.</param>
    /// <returns>Points in the band and their weights.</returns>
    public static List<(double Point, double Weight)> Over(ClearanceBand band, double edge, double inner)
    {
        List<(double Point, double Weight)> rule = [];
        double margin = EdgeScales * edge;
        if (margin > band.Width / 3)
        {
            Add(rule, band.Low, band.High, Math.Min(edge, inner));
            return rule;
        }

        Add(rule, band.Low, band.Low + margin, Math.Min(edge, inner));
        Add(rule, band.Low + margin, band.High - margin, inner);
        Add(rule, band.High - margin, band.High, Math.Min(edge, inner));
        return rule;
    }

    private static void Add(List<(double Point, double Weight)> points, double low, double high, double scale)
    {
        int panels = (int)Math.Clamp(Math.Ceiling((high - low) / (MostBends * scale)), 1, MostPanels);
        double length = (high - low) / panels;
        GaussRule rule = GaussRule.For(length, Math.Max(scale, Finest(high - low)));
        for (int p = 0; p < panels; p++)
        {
            for (int i = 0; i < rule.Order; i++)
            {
                points.Add(rule.At(i, low + (p * length), low + ((p + 1) * length)));
            }
        }
    }
}
