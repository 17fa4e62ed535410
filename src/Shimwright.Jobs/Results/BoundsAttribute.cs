namespace Shimwright.Jobs.Results;

/// <summary>Between what a number of an answer lies: a chance between 0 and 1, an uncertainty or a time from 0 on.</summary>
[AttributeUsage(AttributeTargets.Property)]
internal sealed class BoundsAttribute(double low, double high = double.PositiveInfinity) : Attribute
{
    /// <summary>The least that it can be.</summary>
    public double Low { get; } = low;

    /// <summary>The most that it can be; infinite where there is no such bound.</summary>
    public double High { get; } = high;
}
