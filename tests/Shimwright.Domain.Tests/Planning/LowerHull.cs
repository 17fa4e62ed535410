namespace Shimwright.Domain.Tests.Planning;

/// <summary>The lower hull of points in (doubt, minutes), cheapest first, by walking over the sorted points.</summary>
internal static class LowerHull
{
    private const double Rounding = 1e-9;

    public static List<(double NegLogChance, double Minutes)> Of(IEnumerable<(double NegLogChance, double Minutes)> points)
    {
        List<(double NegLogChance, double Minutes)> hull = [];
        foreach ((double NegLogChance, double Minutes) point in points.OrderBy(p => p.NegLogChance).ThenBy(p => p.Minutes))
        {
            // More doubt for no fewer minutes is no part of the lower left side.
            if (hull.Count > 0 && point.Minutes >= hull[^1].Minutes)
            {
                continue;
            }

            // Fewer minutes for no more doubt than rounding makes: the dearer of the two is no corner.
            if (hull.Count > 0 && point.NegLogChance - hull[^1].NegLogChance < Rounding)
            {
                hull.RemoveAt(hull.Count - 1);
            }

            while (hull.Count > 1 && Sag(hull[^2], hull[^1], point) <= 0)
            {
                hull.RemoveAt(hull.Count - 1);
            }

            hull.Add(point);
        }

        hull.Reverse();
        return hull;
    }

    /// <summary>How far the middle point lies below the line through its neighbours, in minutes.</summary>
    public static double Sag(
        (double NegLogChance, double Minutes) a, (double NegLogChance, double Minutes) middle, (double NegLogChance, double Minutes) b) =>
        a.Minutes + ((b.Minutes - a.Minutes) * (middle.NegLogChance - a.NegLogChance) / (b.NegLogChance - a.NegLogChance)) - middle.Minutes;

    /// <summary>
    /// The hull of all sums of one point from each set: the edges of their hulls, steepest first. The least of any
    /// cost that is concave in the doubt lies on one of its corners.
    /// </summary>
    public static List<(double NegLogChance, double Minutes)> Sum(IEnumerable<IEnumerable<(double NegLogChance, double Minutes)>> sets)
    {
        double doubt = 0;
        double minutes = 0;
        List<(double NegLogChance, double Minutes)> edges = [];
        foreach (IEnumerable<(double NegLogChance, double Minutes)> set in sets)
        {
            List<(double NegLogChance, double Minutes)> hull = Of(set);
            doubt += hull[0].NegLogChance;
            minutes += hull[0].Minutes;
            edges.AddRange(hull.Zip(hull.Skip(1), (from, to) => (from.NegLogChance - to.NegLogChance, to.Minutes - from.Minutes)));
        }

        List<(double NegLogChance, double Minutes)> corners = [(doubt, minutes)];
        foreach ((double less, double more) in edges.OrderBy(e => e.Minutes / e.NegLogChance))
        {
            doubt -= less;
            minutes += more;
            corners.Add((doubt, minutes));
        }

        return Of(corners);
    }
}
