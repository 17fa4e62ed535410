using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Past;

/// <summary>The same check out of two files is one: it was made at the same clock, read the same, and the same was done after it.</summary>
internal sealed class SamePast : IEqualityComparer<WrittenCheck>
{
    public bool Equals(WrittenCheck? x, WrittenCheck? y) => x is null || y is null
        ? x is null && y is null
        : x.Clock == y.Clock && x.Readings.Count == y.Readings.Count && x.Readings.Zip(y.Readings).All(r => AreSame(r.First, r.Second))
            && (x.Changed ?? []).SequenceEqual(y.Changed ?? []);

    public int GetHashCode(WrittenCheck obj) => HashCode.Combine(obj.Clock, obj.Readings.Count);

    /// <summary>A reading's list of trials is one and the same only where it is the same list; its trials are compared instead.</summary>
    private static bool AreSame(WrittenReading one, WrittenReading other) =>
        one with { Trials = null } == other with { Trials = null }
        && (one.Trials is null) == (other.Trials is null) && (one.Trials ?? []).SequenceEqual(other.Trials ?? []);
}
