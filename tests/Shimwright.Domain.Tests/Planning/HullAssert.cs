using Xunit;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>Whether two hulls have the same corners.</summary>
internal static class HullAssert
{
    /// <summary>How far a corner has to stand out of its hull before its absence is an error, in tolerances.</summary>
    private const double Clear = 10;

    public static void SameCorners(
        IReadOnlyList<(double NegLogChance, double Minutes)> expected, IReadOnlyList<(double NegLogChance, double Minutes)> found, double tolerance, string where)
    {
        for (int i = 1; i < found.Count; i++)
        {
            Assert.True(
                found[i].Minutes > found[i - 1].Minutes && found[i].NegLogChance < found[i - 1].NegLogChance,
                $"{where}: alternative {i} is not dearer and surer than the one before");
            // What differs by rounding alone is one corner, not two.
            Assert.False(Near(found[i], found[i - 1], tolerance), $"{where}: alternatives {i - 1} and {i} are one");
            Assert.True(
                i == 1 || LowerHull.Sag(found[i - 2], found[i - 1], found[i]) > tolerance / Clear,
                $"{where}: alternative {i - 1} lies on the line between its neighbours");
        }

        foreach ((double NegLogChance, double Minutes) corner in found)
        {
            Assert.True(expected.Any(e => Near(e, corner, tolerance)), $"{where}: {corner} is no corner of the hull");
        }

        for (int i = 0; i < expected.Count; i++)
        {
            // A corner that is one by rounding only may be missing; the two ends never.
            bool isEnd = i == 0 || i == expected.Count - 1;
            bool standsOut = isEnd || LowerHull.Sag(expected[i - 1], expected[i], expected[i + 1]) > Clear * tolerance;
            Assert.True(
                !standsOut || found.Any(f => Near(f, expected[i], tolerance)), $"{where}: the corner {expected[i]} of {string.Join(", ", expected)} is missing from {string.Join(", ", found)}");
        }
    }

    private static bool Near((double NegLogChance, double Minutes) a, (double NegLogChance, double Minutes) b, double tolerance) =>
        Math.Abs(a.NegLogChance - b.NegLogChance) < tolerance && Math.Abs(a.Minutes - b.Minutes) < tolerance;
}
