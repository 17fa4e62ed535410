using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Readings;

/// <summary>
/// What a valve's readings say by themselves, as if nothing were known of the engine: any clearance within 0.5 mm of the
/// middle of the band is as likely as any other before them. The fingers' and the heat's doubt are counted.
/// </summary>
public sealed class ReadingAlone
{
    private ReadingAlone(ClearanceDistribution clearance, ValveReadings readings)
    {
        Estimate = clearance.Summarise();
        Readings = readings;
    }

    /// <summary>The clearance that the readings alone say.</summary>
    public ClearanceEstimate Estimate { get; }

    /// <summary>The readings.</summary>
    public ValveReadings Readings { get; }

    /// <summary>Whether nothing but the estimate of others says where the clearance is: no blade entered, and nothing was measured.</summary>
    public bool IsUnbounded => Readings.Values.Count == 0 && Readings.Trials.All(t => t.Feel == Feel.No);

    /// <summary>The readings of one valve by themselves.</summary>
    /// <param name="check">The check.</param>
    /// <param name="valve">The valve's place in the engine, from 0.</param>
    /// <returns>What they say, or null where nothing was read.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="check"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="valve"/> is none of the engine's.</exception>
    public static ReadingAlone? At(EngineCheck check, int valve)
    {
        ArgumentNullException.ThrowIfNull(check);
        ThermalShift shift = check.ShiftAt(valve);
        ValveReadings readings = check.Readings[valve];
        if (readings.IsEmpty)
        {
            return null;
        }

        var work = new EstimateWork(check, 0, _ => 2 * LossPrior.StrayReach, valve);
        var resolution = Resolution.For(check, double.PositiveInfinity, work);
        var prior = ClearancePrior.Anywhere(check.Engine.Valves[valve].Band, resolution.Step);
        var offsets = CheckOffsets.For(check, resolution, 0);
        var evidence = new ValveEvidence(prior, new OffsetLikelihood(prior.Grid, new Likelihood(readings, check.Feel, resolution), shift, offsets));
        var cause = new SharedCause([check.Engine.Valves[valve]], [evidence], [0], offsets);
        return new(evidence.Average(cause.Marginal(0)), readings);
    }

    /// <summary>Whether an estimate and these readings contradict each other: their central 95 % intervals do not overlap by half of the shorter one.</summary>
    /// <param name="estimate">The estimate of the same valve.</param>
    /// <returns>True where they do.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="estimate"/> is null.</exception>
    public bool Contradicts(ClearanceEstimate estimate)
    {
        ArgumentNullException.ThrowIfNull(estimate);
        double overlap = Math.Min(Estimate.High, estimate.High) - Math.Max(Estimate.Low, estimate.Low);
        return overlap < Math.Min(Estimate.High - Estimate.Low, estimate.High - estimate.Low) / 2;
    }
}
