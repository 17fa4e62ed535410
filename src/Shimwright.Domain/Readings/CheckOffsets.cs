using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>What all readings of a check may be off by together.</summary>
/// <param name="Fingers">What is added to the gap in every blade trial, mm.</param>
/// <param name="Heat">What is added to the gap in every reading of a valve whose κ is unknown, mm.</param>
/// <param name="LogWeight">ln of what it weighs before the readings.</param>
internal readonly record struct CheckOffset(double Fingers, double Heat, double LogWeight);

/// <summary>
/// The offsets of a check that are considered: fingers may feel all blades thicker or thinner, and an unknown κ moves all
/// gaps of a check taken warm or cold. Both are normal about 0. They lie on steps of the clearances' grid, so that an offset
/// slides a likelihood along it; a doubt too small for that is met by three Gauss points.
/// </summary>
internal sealed class CheckOffsets
{
    /// <summary>How well κ is known where nothing is known of it, mm a degree. Common practice, no source.</summary>
    public const double HeatDoubtPerDegree = 0.0005;

    private const double Sigmas = 5;

    /// <summary>Standard deviations from one offset to the next: plain sums over a bell are then exact to 1e-6.</summary>
    private const double PerStandardDeviation = 1.15;

    /// <summary>The same for the narrowest reading: else offsets would show in it one by one, as the teeth of a comb.</summary>
    private const double PerReading = 1.3;

    private static readonly double ThirdPoint = Math.Sqrt(3);

    private CheckOffsets(IEnumerable<CheckOffset> offsets)
    {
        CheckOffset[] all = [.. offsets];
        double total = all.Sum(o => Math.Exp(o.LogWeight));
        All = [.. all.Select(o => o with { LogWeight = o.LogWeight - Math.Log(total) })];
    }

    /// <summary>The offsets with their weights, which add up to 1.</summary>
    public IReadOnlyList<CheckOffset> All { get; }

    /// <summary>No doubt of either kind.</summary>
    public static CheckOffsets None { get; } = new([new(0, 0, 0)]);

    /// <summary>The offsets of a check.</summary>
    /// <param name="check">The check.</param>
    /// <param name="resolution">How finely the clearances are divided.</param>
    /// <param name="precision">An upper bound of how precisely the valves together can tell an offset: 1 / mm².</param>
    public static CheckOffsets For(EngineCheck check, Resolution resolution, double precision)
    {
        (double fingers, double heat, double apart) = Doubts(check, resolution);
        return new(
            from f in Nodes(fingers, resolution, precision, apart)
            from h in Nodes(heat, resolution, precision, apart)
            select new CheckOffset(f.At, h.At, f.LogWeight + h.LogWeight));
    }

    /// <summary>How many offsets of either kind that makes, and the widest of them together, mm.</summary>
    public static (int Fingers, int Heat, double Widest) Count(EngineCheck check, Resolution resolution, double precision)
    {
        (double fingers, double heat, double apart) = Doubts(check, resolution);
        return (
            fingers == 0 ? 1 : (2 * Spacing(fingers, resolution, precision, apart).EachWay) + 1,
            heat == 0 ? 1 : (2 * Spacing(heat, resolution, precision, apart).EachWay) + 1,
            Sigmas * (fingers + heat));
    }

    private static (double Fingers, double Heat, double Apart) Doubts(EngineCheck check, Resolution resolution)
    {
        double fingers = check.IsOpen || check.Readings.Any(r => r.Trials.Count > 0) ? check.Feel.Doubt : 0;
        double heat = HeatDoubt(check);
        bool isFeltOnly = !check.IsOpen && check.Readings.All(r => r.Values.Count + r.BucketTurns.Count == 0)
            && Enumerable.Range(0, check.Readings.Count).All(v => !check.ShiftAt(v).IsKnown || check.Readings[v].Trials.Count == 0);
        if (isFeltOnly && heat > 0)
        {
            // Nothing tells the two apart where every reading is a blade in a gap of unknown κ.
            (fingers, heat) = (Squares.CombinedStandardUncertainty(fingers, heat), 0);
        }

        double narrowest = check.IsOpen ? check.Feel.FinestScaleOfAll(check.Readings) : check.Readings.Min(check.Feel.FinestScale);
        return (fingers, heat, PerReading * resolution.Counted(narrowest));
    }

    private static double HeatDoubt(EngineCheck check)
    {
        bool isUnknown = Enumerable.Range(0, check.Readings.Count).Any(v => (check.IsOpen || !check.Readings[v].IsEmpty) && !check.ShiftAt(v).IsKnown);
        return isUnknown && check.CountsHeatDoubt ? HeatDoubtPerDegree * Math.Abs(check.Temperature - ThermalShift.Reference) : 0;
    }

    private static IEnumerable<(double At, double LogWeight)> Nodes(double sd, Resolution resolution, double precision, double widest)
    {
        if (sd == 0)
        {
            return [(0, 0)];
        }

        if (sd < resolution.Step)
        {
            return [(-ThirdPoint * sd, Math.Log(1 / 6.0)), (0, Math.Log(2 / 3.0)), (ThirdPoint * sd, Math.Log(1 / 6.0))];
        }

        (double apart, int each) = Spacing(sd, resolution, precision, widest);
        return Enumerable.Range(-each, (2 * each) + 1).Select(k => (k * apart, -0.5 * Squares.Of(k * apart / sd)));
    }

    private static (double Apart, int EachWay) Spacing(double sd, Resolution resolution, double precision, double widest)
    {
        double posterior = resolution.Counted(1 / Math.Sqrt((1 / Squares.Of(sd)) + precision));
        int steps = (int)(Math.Min(PerStandardDeviation * posterior, widest) / resolution.Step);
        double apart = Math.Max(1, steps) * resolution.Step;
        return (apart, sd < resolution.Step ? 1 : (int)Math.Ceiling(Sigmas * sd / apart));
    }
}
