using System.Globalization;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>How far two estimates lie apart at most.</summary>
internal sealed class Agreement
{
    /// <summary>In the chances of being in band and of one cause.</summary>
    public double Probability { get; private set; }

    /// <summary>In means and standard deviations, mm.</summary>
    public double Moments { get; private set; }

    /// <summary>In the ends of the 95 % interval, mm.</summary>
    public double Ends { get; private set; }

    /// <summary>Counts in one engine that was estimated both ways.</summary>
    public Agreement Add(EngineCheck check, SlowGrid? grid = null)
    {
        EngineEstimate fast = EngineEstimate.From(check);
        var slow = new SlowPosterior(check, grid);
        Probability = Math.Max(Probability, Math.Abs(fast.SharedCauseProbability!.Value - slow.SharedCauseProbability));
        foreach ((ClearanceEstimate f, ClearanceEstimate s) in fast.Valves.Select(v => v.Summarise()).Zip(slow.Valves))
        {
            Probability = Math.Max(Probability, Math.Abs(f.InBand - s.InBand));
            Moments = Math.Max(Moments, Math.Max(Math.Abs(f.Mean - s.Mean), Math.Abs(f.StandardDeviation - s.StandardDeviation)));
            Ends = Math.Max(Ends, Math.Max(Math.Abs(f.Low - s.Low), Math.Abs(f.High - s.High)));
        }

        return this;
    }

    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{Probability:E1} in a probability, {Moments:E1} mm in mean and standard deviation, {Ends:E1} mm in the ends of the interval");
}
