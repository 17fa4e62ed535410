using Xunit;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>Whether two hulls have the same corners.</summary>
internal static class HullAssert
{
    /// <summary>Work that buys less to come than this part of it is not worth a corner.</summary>
    private const double Worthless = 1e-5;

    /// <summary>How far a corner has to stand out of its hull before its absence is an error, in tolerances.</summary>
    private const double Clear = 10;

    public static void SameCorners(
        IReadOnlyList<(double ToCome, double Work)> expected, IReadOnlyList<(double ToCome, double Work)> found, double tolerance, string where, (double ToCome, double Work)? onIt = null)
    {
        for (int i = 1; i < found.Count; i++)
        {
            Assert.True(
                found[i].Work > found[i - 1].Work && found[i].ToCome < found[i - 1].ToCome,
                $"{where}: alternative {i} is not more work with less to come than the one before");
            // What differs by rounding alone is one corner, not two.
            Assert.False(Near(found[i], found[i - 1], tolerance), $"{where}: alternatives {i - 1} and {i} are one");
            Assert.True(
                i == 1 || found[i - 1] == onIt || LowerHull.Sag(found[i - 2], found[i - 1], found[i]) > tolerance / Clear,
                $"{where}: alternative {i - 1} lies on the line between its neighbours");
        }

        foreach ((double ToCome, double Work) corner in found)
        {
            Assert.True(corner == onIt || expected.Any(e => Near(e, corner, tolerance)), $"{where}: {corner} is no corner of the hull");
        }

        for (int i = 0; i < expected.Count; i++)
        {
            // A corner that is one by rounding only may be missing; the two ends never.
            bool isEnd = i == 0 || i == expected.Count - 1;
            bool isWorthless = i > 0 && expected[i - 1].ToCome - expected[i].ToCome < Worthless * (expected[i].Work - expected[i - 1].Work);
            bool standsOut = (isEnd && !isWorthless) || (!isEnd && !isWorthless && LowerHull.Sag(expected[i - 1], expected[i], expected[i + 1]) > Clear * tolerance);
            Assert.True(
                !standsOut || found.Any(f => Near(f, expected[i], tolerance)), $"{where}: the corner {expected[i]} of {string.Join(", ", expected)} is missing from {string.Join(", ", found)}");
        }
    }

    private static bool Near((double ToCome, double Work) a, (double ToCome, double Work) b, double tolerance) =>
        Math.Abs(a.ToCome - b.ToCome) < tolerance && Math.Abs(a.Work - b.Work) < tolerance;
}
