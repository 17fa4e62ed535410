using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// How finely the clearances have to be divided so that nothing that the readings, the bands or the later fitting can tell
/// apart falls between two points; and the least length that is told apart at all, where a check asks for more than can be borne.
/// </summary>
/// <param name="Step">Distance between clearances, mm.</param>
/// <param name="Floor">What is told apart more finely counts as told apart by this, mm; 0 where all is told apart as it is.</param>
internal readonly record struct Resolution(double Step, double Floor = 0)
{
    /// <summary>Points within the shortest length over which a density changes: the cubic over a limit of the band is then within 1e-4.</summary>
    private const double PointsPerScale = 3;

    /// <summary>Points within a bell's standard deviation from which plain sums over it are exact to 1e-15.</summary>
    private const double LeastPointsPerScale = 1.5;

    private const double Finest = 8e-5;
    private const double Coarsest = 0.002;

    /// <summary>The least floor that is set, the greatest, and how much greater the next is.</summary>
    private const double LeastFloor = 0.0003, GreatestFloor = 0.1, NextFloor = 1.25;

    /// <summary>The resolution for a check.</summary>
    /// <param name="check">The check.</param>
    /// <param name="finestLater">The least standard deviation by which its result will be moved later, mm.</param>
    /// <param name="work">What an estimate takes.</param>
    public static Resolution For(EngineCheck check, double finestLater, EstimateWork work)
    {
        double bandScale = check.Engine.Valves.Min(v => BandScale(v.Band.Width));
        double readingScale = check.Readings.Min(check.Feel.FinestScale);
        return Bearable(floor => At(bandScale, readingScale, finestLater, floor), work.CanBear);
    }

    /// <summary>The finest resolution that any of these checks asks for, as fine as it can be borne.</summary>
    public static Resolution For(IReadOnlyList<EngineCheck> checks, Func<Resolution, bool> canBear)
    {
        double bandScale = checks[0].Engine.Valves.Min(v => BandScale(v.Band.Width));
        double readingScale = checks.Min(c => c.Readings.Min(c.Feel.FinestScale));
        return Bearable(floor => At(bandScale, readingScale, double.PositiveInfinity, floor), canBear);
    }

    /// <summary>The finest that can be borne.</summary>
    public static Resolution Bearable(Func<double, Resolution> at, Func<Resolution, bool> canBear)
    {
        Resolution resolution = at(0);
        for (double floor = LeastFloor; !canBear(resolution) && floor < GreatestFloor; floor *= NextFloor)
        {
            resolution = at(floor);
        }

        return resolution;
    }

    private static Resolution At(double bandScale, double readingScale, double finestLater, double floor)
    {
        double step = Math.Min(
            Math.Min(Math.Max(floor, bandScale), Math.Max(floor, readingScale)) / PointsPerScale, Math.Max(floor, finestLater) / LeastPointsPerScale);
        return new(Math.Clamp(step, Finest, Math.Max(Coarsest, floor / PointsPerScale)), floor);
    }

    /// <summary>The same, so much finer that a bell of this standard deviation falls on enough points; as it is where it does already.</summary>
    public Resolution FineEnoughFor(double scale)
    {
        int times = (int)Math.Ceiling(Step * LeastPointsPerScale / Math.Max(Math.Max(Finest, Floor), scale));
        return times <= 1 ? this : this with { Step = Step / times };
    }

    /// <summary>An uncertainty as it counts: no less than what is told apart.</summary>
    public double Counted(double scale) => Math.Max(Floor, scale);

    /// <summary>What the logarithm of a likelihood counts for that tells this length apart: less where that is finer than the floor.</summary>
    public double ShareOf(double scale) => scale < Floor ? Squares.Of(scale / Floor) : 1;

    /// <summary>The standard deviation about the middle of its band with which a valve left the maker, mm.</summary>
    public static double BandScale(double width) => width / 4;
}
