using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Planning;

/// <summary>The chances of what may be done: from the distributions, those of a horizon, or those of the estimate before more was read.</summary>
internal sealed class OptionChances(EngineEstimate estimate, HorizonChances? staying, GivenCause? given)
{
    /// <summary>The chance that a valve is in its band now.</summary>
    public double InBand(int v) => Before(v)?.InBand(estimate, v) ?? estimate.Valves[v].InBand;

    /// <summary>The chance that it is after a change, and stays so over the horizon.</summary>
    public double After(int v, ClearanceChange change) =>
        staying?.After(v, change) ?? Before(v)?.InBandAfter(estimate, v, change) ?? estimate.Valves[v].InBandAfter(change);

    /// <summary>An upper bound of that for a change of shim; 1 where it would take as long as the chance itself.</summary>
    public double AfterAtMost(int v, ClearanceChange change) => Before(v) is null ? estimate.Valves[v].InBandAfterAtMost(change) : 1;

    /// <summary>A distribution on the valve's grid, with its band: its own, or the one before more was read elsewhere.</summary>
    public ClearanceDistribution ShapeOf(int v) => Before(v)?.Of(v) ?? estimate.Valves[v];

    /// <summary>What the estimate before says of a valve at which no more was read since; null where the valve is asked itself.</summary>
    private GivenCause? Before(int v) => staying is null && given?.Holds(estimate, v) == true ? given : null;
}
