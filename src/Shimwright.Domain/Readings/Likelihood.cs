using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>What a valve's readings say about the gap that they were taken in: ln of their chance, up to a constant.</summary>
internal sealed class Likelihood
{
    /// <summary>
    /// How far, in logarithms, a clearance may fall behind the likeliest one: a reading that contradicts everything else
    /// then leaves what was known before instead of nothing at all.
    /// </summary>
    internal const double LeastLog = -300;

    /// <summary>Beyond so many standard deviations no chance changes any more.</summary>
    private const double TailSigmas = 7;

    private readonly DirectValue[] _values;
    private readonly bool[] _bucketTurns;
    private readonly BladeGroup[] _blades;
    private readonly double _share;

    public Likelihood(ValveReadings readings, FeelProfile feel, Resolution resolution)
    {
        _values = [.. readings.Values];
        _bucketTurns = [.. readings.BucketTurns];
        _blades = [.. BladeGroup.Of(readings.Trials, feel, resolution.Floor)];
        _share = resolution.Floor > 0 ? resolution.ShareOf(feel.FinestScale(readings)) : 1;
        (From, To) = SpanOf(readings, feel, resolution);
    }

    /// <summary>The gaps between which the chance of readings changes, mm; the first above the other where nothing was read.</summary>
    public static (double From, double To) SpanOf(ValveReadings readings, FeelProfile feel, Resolution resolution)
    {
        (double from, double to) = (double.PositiveInfinity, double.NegativeInfinity);
        void Widen(double low, double high) => (from, to) = (Math.Min(from, low), Math.Max(to, high));
        foreach (BladeTrial trial in readings.Trials)
        {
            double tail = TailSigmas * resolution.Counted(feel.StandardDeviationOf(trial.Leaves));
            Widen(trial.Blade + feel.Firm - tail, trial.Blade + feel.Loose + tail);
        }

        foreach (DirectValue value in readings.Values)
        {
            double tail = resolution.Counted(value.Uncertainty) * Math.Sqrt(-2 * LeastLog);
            Widen(value.Millimetres - tail, value.Millimetres + tail);
        }

        if (readings.BucketTurns.Count > 0)
        {
            Widen(-TailSigmas * FeelProfile.BucketSpread, TailSigmas * FeelProfile.BucketSpread);
        }

        return (from, to);
    }

    /// <summary>The lowest gap at which the chance changes, mm; above <see cref="To"/> where nothing was read.</summary>
    public double From { get; }

    /// <summary>The greatest gap at which the chance changes, mm.</summary>
    public double To { get; }

    /// <summary>Whether any blade was tried.</summary>
    public bool HasTrials => _blades.Length > 0;

    /// <summary>Whether anything but blades tells of the gap.</summary>
    public bool HasOthers => _values.Length + _bucketTurns.Length > 0;

    /// <summary>ln of the chance of the blade trials in a gap.</summary>
    public double LogOfTrials(double gap)
    {
        double log = 0;
        foreach (BladeGroup blade in _blades)
        {
            log += Math.Log(blade.Chance(gap));
        }

        return _share * log;
    }

    /// <summary>ln of the chance of direct values and buckets in a gap.</summary>
    public double LogOfOthers(double gap)
    {
        double log = 0;
        foreach (DirectValue value in _values)
        {
            log -= 0.5 * Squares.Of((value.Millimetres - gap) / value.Uncertainty);
        }

        foreach (bool turns in _bucketTurns)
        {
            double turning = FeelProfile.ChanceBucketTurns(gap);
            log += Math.Log(turns ? turning : 1 - turning);
        }

        return _share * log;
    }

    /// <summary>ln of the chance of everything in a gap.</summary>
    public double Log(double gap) => LogOfTrials(gap) + LogOfOthers(gap);

    /// <summary>From logarithms to likelihoods, scaled so that the greatest is 1.</summary>
    public static void Raise(Span<double> log)
    {
        double peak = double.NegativeInfinity;
        foreach (double l in log)
        {
            peak = Math.Max(peak, l);
        }

        Raise(log, peak);
    }

    /// <summary>From logarithms to likelihoods, scaled so that this logarithm becomes 1.</summary>
    public static void Raise(Span<double> log, double peak)
    {
        for (int i = 0; i < log.Length; i++)
        {
            log[i] = Math.Exp(Math.Max(LeastLog, log[i] - peak));
        }
    }
}
