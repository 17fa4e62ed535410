using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>Everything that was felt or measured at one valve in one check, in the order in which it was done.</summary>
public sealed record ValveReadings
{
    /// <summary>Makes the readings of one valve.</summary>
    /// <param name="trials">Blade trials.</param>
    /// <param name="values">Direct values.</param>
    /// <param name="bucketTurns">For each time it was tried: whether the bucket turned by hand on the heel of its cam.</param>
    public ValveReadings(
        IEnumerable<BladeTrial>? trials = null, IEnumerable<DirectValue>? values = null, IEnumerable<bool>? bucketTurns = null)
    {
        Trials = [.. trials ?? []];
        Values = [.. values ?? []];
        BucketTurns = [.. bucketTurns ?? []];
    }

    /// <summary>A valve at which nothing was tried.</summary>
    public static ValveReadings None { get; } = new();

    /// <summary>Blade trials.</summary>
    public IReadOnlyList<BladeTrial> Trials { get; }

    /// <summary>Direct values.</summary>
    public IReadOnlyList<DirectValue> Values { get; }

    /// <summary>For each time it was tried: whether the bucket turned by hand.</summary>
    public IReadOnlyList<bool> BucketTurns { get; }

    /// <summary>Whether nothing was tried at this valve.</summary>
    public bool IsEmpty => Trials.Count + Values.Count + BucketTurns.Count == 0;

    /// <summary>How many older readings of each kind were left out of these.</summary>
    public (int Trials, int Values, int BucketTurns) Older { get; private init; }

    /// <summary>The newest of these readings, so many of each kind at most.</summary>
    /// <param name="most">How many of a kind.</param>
    /// <returns>These readings themselves where there are no more.</returns>
    public ValveReadings Newest(int most) => Math.Max(Trials.Count, Math.Max(Values.Count, BucketTurns.Count)) <= most
        ? this
        : new(Trials.TakeLast(most), Values.TakeLast(most), BucketTurns.TakeLast(most))
        {
            Older = (Math.Max(0, Trials.Count - most), Math.Max(0, Values.Count - most), Math.Max(0, BucketTurns.Count - most)),
        };

    /// <summary>These readings followed by <paramref name="more"/>.</summary>
    /// <param name="more">Later readings of the same valve.</param>
    /// <returns>Both together; readings are independent given the clearance.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="more"/> is null.</exception>
    public ValveReadings With(ValveReadings more)
    {
        ArgumentNullException.ThrowIfNull(more);
        return new(Trials.Concat(more.Trials), Values.Concat(more.Values), BucketTurns.Concat(more.BucketTurns));
    }

    /// <summary>The direct values as one: their weighted mean, which carries all that they say together.</summary>
    /// <returns>The mean and its standard uncertainty, or null where there is no direct value.</returns>
    public (double Millimetres, double Uncertainty)? CombinedValue()
    {
        if (Values.Count == 0)
        {
            return null;
        }

        double weight = Values.Sum(v => 1 / Squares.Of(v.Uncertainty));
        return (Values.Sum(v => v.Millimetres / Squares.Of(v.Uncertainty)) / weight, 1 / Math.Sqrt(weight));
    }
}
