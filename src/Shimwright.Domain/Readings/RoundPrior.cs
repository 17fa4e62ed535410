namespace Shimwright.Domain.Readings;

/// <summary>One valve as the round before left it.</summary>
/// <param name="Left">What is known of its clearance now, if its change went as it was meant.</param>
/// <param name="StrayWeight">The chance that it did not, and the clearance is anywhere within 0.5 mm of the middle of the band.</param>
/// <param name="LastRead">The check in which it was read as it is now; null where it was not, or was changed since.</param>
/// <param name="WasChanged">Whether it was changed in an earlier round.</param>
public sealed record RoundValve(ClearanceDistribution Left, double StrayWeight, EngineCheck? LastRead, bool WasChanged);

/// <summary>
/// What the round before left of an engine whose check is a later round of the same work: the prior of that check. Its valves are
/// independent; what was learnt of each goes on.
/// </summary>
public sealed record RoundPrior
{
    /// <summary>Makes a prior.</summary>
    /// <param name="valves">Every valve, in the engine's order.</param>
    /// <exception cref="ArgumentNullException"><paramref name="valves"/> is null.</exception>
    public RoundPrior(IEnumerable<RoundValve> valves)
    {
        ArgumentNullException.ThrowIfNull(valves);
        Valves = [.. valves];
    }

    /// <summary>Every valve, in the engine's order.</summary>
    public IReadOnlyList<RoundValve> Valves { get; }
}
