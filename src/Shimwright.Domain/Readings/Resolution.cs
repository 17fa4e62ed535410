namespace Shimwright.Domain.Readings;

/// <summary>
/// How finely the clearances and the shared loss have to be divided so that nothing that the readings, the bands
/// or the later fitting can tell apart falls between two points.
/// </summary>
/// <param name="Step">Distance between clearances, mm.</param>
/// <param name="StepsPerLoss">Steps from one shared loss to the next.</param>
/// <param name="Losses">Shared losses that are considered, both ends included.</param>
internal readonly record struct Resolution(double Step, int StepsPerLoss, int Losses)
{
    /// <summary>Points within the shortest length over which anything changes.</summary>
    private const double PointsPerScale = 4;

    /// <summary>Points within a bell's standard deviation from which plain sums over it are exact to 1e-15.</summary>
    private const double LeastPointsPerScale = 1.5;

    /// <summary>Shared losses within the shortest length over which their weight changes.</summary>
    private const double LossesPerScale = 3;

    private const double Finest = 8e-5;
    private const int FewestLosses = 48;
    private const int MostLosses = 2048;

    /// <summary>The finest resolution that any of these checks asks for.</summary>
    public static Resolution For(IEnumerable<EngineCheck> checks) =>
        checks.Select(c => For(c, double.PositiveInfinity)).MinBy(r => r.Step);

    public static Resolution For(EngineCheck check, double finestLater)
    {
        double bandScale = check.Engine.Valves.Min(v => BandScale(v.Band.Width));
        double readingScale = check.Readings.Min(check.Feel.FinestScale);
        double scale = Math.Max(Finest, Math.Min(finestLater, Math.Min(bandScale, readingScale)));
        double lossScale = Math.Min(check.Loss.Shared, bandScale / Math.Sqrt(check.Engine.Valves.Count));
        int intervals = (int)Math.Clamp(
            Math.Ceiling(LossesPerScale * LossPrior.GreatestShared / lossScale), FewestLosses, MostLosses);
        double lossStep = LossPrior.GreatestShared / intervals;
        int stepsPerLoss = (int)Math.Ceiling(PointsPerScale * lossStep / scale);
        return new(lossStep / stepsPerLoss, stepsPerLoss, intervals + 1);
    }

    /// <summary>The same, so much finer that a bell of this standard deviation falls on enough points; as it is where it does already.</summary>
    public Resolution FineEnoughFor(double scale)
    {
        int times = (int)Math.Ceiling(Step * LeastPointsPerScale / Math.Max(Finest, scale));
        return times <= 1 ? this : new(Step / times, StepsPerLoss * times, Losses);
    }

    /// <summary>The standard deviation about the middle of its band with which a valve left the maker, mm.</summary>
    public static double BandScale(double width) => width / 4;
}
