using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Wear;

/// <summary>One check of an engine's past: when, what was read, what was found fitted, and what was changed afterwards.</summary>
public sealed class WearCheck
{
    private readonly Lazy<IReadOnlyList<(double Mean, double StandardDeviation)>> _alone;

    /// <summary>Makes a check.</summary>
    /// <param name="clock">The engine's clock, hours or km, 0 or more.</param>
    /// <param name="check">What was read.</param>
    /// <param name="fitted">The thickness found at each valve, in the engine's order, null where it is not known; left out where none is.</param>
    /// <param name="changes">What was done after the readings, at most one change a valve.</param>
    /// <exception cref="ArgumentNullException"><paramref name="check"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="clock"/> is outside its range, or <paramref name="fitted"/> has not one entry a valve.</exception>
    /// <exception cref="ArgumentException">One of <paramref name="changes"/> belongs to no valve of the engine, or two belong to one.</exception>
    public WearCheck(
        double clock, EngineCheck check, IEnumerable<Thickness?>? fitted = null, IEnumerable<Adjustment>? changes = null)
    {
        ArgumentNullException.ThrowIfNull(check);
        Clock = Guard.Within(clock, 0, double.MaxValue);
        Check = check;
        _alone = new(() => [.. EngineEstimate.From(check.WithoutOffsets).Valves.Select(v => (v.Mean, v.StandardDeviation))]);
        Fitted = [.. fitted ?? check.Engine.Valves.Select(_ => (Thickness?)null)];
        ArgumentOutOfRangeException.ThrowIfNotEqual(Fitted.Count, check.Engine.Valves.Count, nameof(fitted));
        Changes = [.. changes ?? []];
        if (Changes.DistinctBy(c => c.Valve).Count() != Changes.Count || Changes.Any(c => c.Valve >= Fitted.Count))
        {
            throw new ArgumentException("Each change belongs to a valve of the engine, and each valve has one at most.", nameof(changes));
        }
    }

    /// <summary>The engine's clock, hours or km.</summary>
    public double Clock { get; }

    /// <summary>What was read.</summary>
    public EngineCheck Check { get; }

    /// <summary>The clearance of each valve by these readings alone, the past unknown: where every way through the checks begins, whatever wear is held usual.</summary>
    internal IReadOnlyList<(double Mean, double StandardDeviation)> Alone => _alone.Value;

    /// <summary>The thickness found at each valve, or null.</summary>
    public IReadOnlyList<Thickness?> Fitted { get; }

    /// <summary>What was done after the readings.</summary>
    public IReadOnlyList<Adjustment> Changes { get; }

    /// <summary>What was done at a valve, or null.</summary>
    /// <param name="valve">The valve's place in the engine, from 0.</param>
    /// <returns>The change.</returns>
    public Adjustment? ChangeAt(int valve) => Changes.FirstOrDefault(c => c.Valve == valve);
}
