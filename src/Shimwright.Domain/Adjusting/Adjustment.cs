using Shimwright.Domain.Numerics;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Adjusting;

/// <summary>What was done at one valve after its check.</summary>
public sealed record Adjustment
{
    private Adjustment(int valve, Thickness? from, Thickness? to, double turns)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(valve);
        Valve = valve;
        From = from;
        To = to;
        Turns = turns;
    }

    /// <summary>The valve's place in the engine, from 0.</summary>
    public int Valve { get; }

    /// <summary>The thickness that came out; null for a screw.</summary>
    public Thickness? From { get; }

    /// <summary>The thickness that went in; null for a screw.</summary>
    public Thickness? To { get; }

    /// <summary>Turns of the screw, positive for more clearance; 0 for a shim.</summary>
    public double Turns { get; }

    /// <summary>Whether nothing was changed and the valve was only seated anew.</summary>
    public bool IsSeatedAnew { get; private init; }

    /// <summary>A shim was changed.</summary>
    /// <param name="valve">The valve's place in the engine, from 0.</param>
    /// <param name="from">The thickness that came out.</param>
    /// <param name="to">The thickness that went in.</param>
    /// <returns>The change.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="from"/> or <paramref name="to"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="valve"/> is below 0.</exception>
    public static Adjustment Fitted(int valve, Thickness from, Thickness to)
    {
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(to);
        return new(valve, from, to, 0);
    }

    /// <summary>The shim stayed, and the camshaft over it was lifted and laid down once more.</summary>
    /// <param name="valve">The valve's place in the engine, from 0.</param>
    /// <returns>The change.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="valve"/> is below 0.</exception>
    public static Adjustment SeatedAnew(int valve) => new(valve, null, null, 0) { IsSeatedAnew = true };

    /// <summary>A screw was turned.</summary>
    /// <param name="valve">The valve's place in the engine, from 0.</param>
    /// <param name="turns">Turns, positive for more clearance.</param>
    /// <returns>The change.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="valve"/> is below 0, or <paramref name="turns"/> is not finite.</exception>
    public static Adjustment Turned(int valve, double turns) => new(valve, null, null, Guard.Finite(turns));
}
