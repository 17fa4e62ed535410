namespace Shimwright.Domain.Tests.Planning;

/// <summary>The lower hull of points in (doubt, minutes), cheapest first, by walking over the sorted points.</summary>
internal static class LowerHull
{
    public static List<(double Doubt, double Minutes)> Of(IEnumerable<(double Doubt, double Minutes)> points)
    {
        List<(double Doubt, double Minutes)> hull = [];
        foreach ((double Doubt, double Minutes) point in points.OrderBy(p => p.Doubt).ThenBy(p => p.Minutes))
        {
            // More doubt for no fewer minutes is no part of the lower left side.
            if (hull.Count > 0 && point.Minutes >= hull[^1].Minutes)
            {
                continue;
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
        (double Doubt, double Minutes) a, (double Doubt, double Minutes) middle, (double Doubt, double Minutes) b) =>
        a.Minutes + ((b.Minutes - a.Minutes) * (middle.Doubt - a.Doubt) / (b.Doubt - a.Doubt)) - middle.Minutes;

    /// <summary>
    /// The hull of all sums of one point from each set: the edges of their hulls, steepest first. The least of any
    /// cost that is concave in the doubt lies on one of its corners.
    /// </summary>
    public static List<(double Doubt, double Minutes)> Sum(IEnumerable<IEnumerable<(double Doubt, double Minutes)>> sets)
    {
        double doubt = 0;
        double minutes = 0;
        List<(double Doubt, double Minutes)> edges = [];
        foreach (IEnumerable<(double Doubt, double Minutes)> set in sets)
        {
            List<(double Doubt, double Minutes)> hull = Of(set);
            doubt += hull[0].Doubt;
            minutes += hull[0].Minutes;
            edges.AddRange(hull.Zip(hull.Skip(1), (from, to) => (from.Doubt - to.Doubt, to.Minutes - from.Minutes)));
        }

        List<(double Doubt, double Minutes)> corners = [(doubt, minutes)];
        foreach ((double less, double more) in edges.OrderBy(e => e.Minutes / e.Doubt))
        {
            doubt -= less;
            minutes += more;
            corners.Add((doubt, minutes));
        }

        return Of(corners);
    }
}
