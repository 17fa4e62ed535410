using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>What a valve's past lets expect of its clearance at 20 °C, before a check is read.</summary>
public sealed record ExpectedClearance
{
    /// <summary>Makes an expectation.</summary>
    /// <param name="mean">Expected clearance, mm.</param>
    /// <param name="standardDeviation">Its standard deviation, mm, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="mean"/> is not finite, or <paramref name="standardDeviation"/> is not above 0.</exception>
    public ExpectedClearance(double mean, double standardDeviation)
    {
        Mean = Guard.Finite(mean);
        StandardDeviation = Guard.Within(standardDeviation, double.Epsilon, double.MaxValue);
    }

    /// <summary>Expected clearance, mm.</summary>
    public double Mean { get; }

    /// <summary>Its standard deviation, mm.</summary>
    public double StandardDeviation { get; }
}

/// <summary>
/// What the past of an engine lets expect of all its valves. The valves are independent; each expectation is mixed
/// with some weight of what is expected of a valve whose past is unknown, since things happen that no past foretells.
/// </summary>
public sealed record HistoryPrior
{
    /// <summary>The usual weight of a valve whose past says nothing. Common practice, no source.</summary>
    public const double UsualStrayWeight = 0.10;

    /// <summary>Makes a prior.</summary>
    /// <param name="valves">What is expected of each valve, in the engine's order.</param>
    /// <param name="strayWeight">The weight of a valve whose past says nothing, 0 to 1.</param>
    /// <exception cref="ArgumentNullException"><paramref name="valves"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="strayWeight"/> is outside its range.</exception>
    public HistoryPrior(IEnumerable<ExpectedClearance> valves, double strayWeight = UsualStrayWeight)
    {
        ArgumentNullException.ThrowIfNull(valves);
        Valves = [.. valves];
        StrayWeight = Guard.Within(strayWeight, 0, 1);
    }

    /// <summary>What is expected of each valve, in the engine's order.</summary>
    public IReadOnlyList<ExpectedClearance> Valves { get; }

    /// <summary>The weight of a valve whose past says nothing.</summary>
    public double StrayWeight { get; }
}
