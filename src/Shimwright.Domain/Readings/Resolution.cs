namespace Shimwright.Domain.Readings;

/// <summary>
/// How finely the clearances have to be divided so that nothing that the readings, the bands or the later fitting can tell
/// apart falls between two points.
/// </summary>
/// <param name="Step">Distance between clearances, mm.</param>
internal readonly record struct Resolution(double Step)
{
    /// <summary>Points within the shortest length over which a density changes: the cubic over a limit of the band is then within 1e-4.</summary>
    private const double PointsPerScale = 3;

    /// <summary>Points within a bell's standard deviation from which plain sums over it are exact to 1e-15.</summary>
    private const double LeastPointsPerScale = 1.5;

    private const double Finest = 8e-5;
    private const double Coarsest = 0.002;

    /// <summary>The finest resolution that any of these checks asks for.</summary>
    public static Resolution For(IEnumerable<EngineCheck> checks) =>
        checks.Select(c => For(c, double.PositiveInfinity)).MinBy(r => r.Step);

    /// <summary>The resolution for a check.</summary>
    /// <param name="check">The check.</param>
    /// <param name="finestLater">The least standard deviation by which its result will be moved later, mm.</param>
    public static Resolution For(EngineCheck check, double finestLater)
    {
        double bandScale = check.Engine.Valves.Min(v => BandScale(v.Band.Width));
        double readingScale = check.Readings.Min(check.Feel.FinestScale);
        double step = Math.Min(Math.Min(bandScale, readingScale) / PointsPerScale, finestLater / LeastPointsPerScale);
        return new(Math.Clamp(step, Finest, Coarsest));
    }

    /// <summary>The same, so much finer that a bell of this standard deviation falls on enough points; as it is where it does already.</summary>
    public Resolution FineEnoughFor(double scale)
    {
        int times = (int)Math.Ceiling(Step * LeastPointsPerScale / Math.Max(Finest, scale));
        return times <= 1 ? this : new(Step / times);
    }

    /// <summary>The standard deviation about the middle of its band with which a valve left the maker, mm.</summary>
    public static double BandScale(double width) => width / 4;
}
