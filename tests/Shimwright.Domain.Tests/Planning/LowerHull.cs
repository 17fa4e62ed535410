namespace Shimwright.Domain.Tests.Planning;

/// <summary>The lower hull of points in (to come, work), least work first, by walking over the sorted points.</summary>
internal static class LowerHull
{
    private const double Rounding = 1e-9;

    public static List<(double ToCome, double Work)> Of(IEnumerable<(double ToCome, double Work)> points)
    {
        List<(double ToCome, double Work)> hull = [];
        foreach ((double ToCome, double Work) point in points.OrderBy(p => p.ToCome).ThenBy(p => p.Work))
        {
            // More to come for no less work is no part of the lower left side.
            if (hull.Count > 0 && point.Work >= hull[^1].Work)
            {
                continue;
            }

            // Less work for no more to come than rounding makes: the dearer of the two is no corner.
            if (hull.Count > 0 && point.ToCome - hull[^1].ToCome < Rounding)
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

    /// <summary>How far the middle point lies below the line through its neighbours, in minutes of work.</summary>
    public static double Sag(
        (double ToCome, double Work) a, (double ToCome, double Work) middle, (double ToCome, double Work) b) =>
        a.Work + ((b.Work - a.Work) * (middle.ToCome - a.ToCome) / (b.ToCome - a.ToCome)) - middle.Work;

    /// <summary>
    /// The hull of all sums of one point from each set: the edges of their hulls, steepest first. The least of any
    /// cost that is concave in the first coordinate lies on one of its corners.
    /// </summary>
    public static List<(double ToCome, double Work)> Sum(IEnumerable<IEnumerable<(double ToCome, double Work)>> sets)
    {
        double toCome = 0;
        double work = 0;
        List<(double ToCome, double Work)> edges = [];
        foreach (IEnumerable<(double ToCome, double Work)> set in sets)
        {
            List<(double ToCome, double Work)> hull = Of(set);
            toCome += hull[0].ToCome;
            work += hull[0].Work;
            edges.AddRange(hull.Zip(hull.Skip(1), (from, to) => (from.ToCome - to.ToCome, to.Work - from.Work)));
        }

        List<(double ToCome, double Work)> corners = [(toCome, work)];
        foreach ((double less, double more) in edges.OrderBy(e => e.Work / e.ToCome))
        {
            toCome -= less;
            work += more;
            corners.Add((toCome, work));
        }

        return Of(corners);
    }
}
