namespace Shimwright.Domain.CrankStops;

/// <summary>Which way the crank has to be turned by hand for an automatic decompressor to lift its valves.</summary>
public enum DecompressorLift
{
    /// <summary>It lifts as the crank turns in running direction, and lets go when it is turned back.</summary>
    Forwards,

    /// <summary>It lifts when the crank is turned against its running direction only.</summary>
    Backwards,

    /// <summary>It lifts whichever way the crank turns.</summary>
    Both,
}

/// <summary>
/// An automatic decompressor: it holds a valve off its seat on the compression stroke as long as the engine turns slowly, and so
/// while it is turned by hand. A gap that is felt then is not the valve's. Common practice, no source.
/// </summary>
/// <param name="Lifts">Which way the crank has to be turned for it to lift.</param>
public sealed record Decompressor(DecompressorLift Lifts)
{
    /// <summary>
    /// Where it may lift while the crank is turned in running direction, where the card does not say: the whole compression
    /// stroke, crank degrees after its cylinder's compression TDC. Common practice, no source.
    /// </summary>
    public static OffHeel Usual { get; } = new(-180, 180);

    /// <summary>How far past the end of its lift, ramp included, a valve is read: a quarter inch of piston past TDC on a small engine. Common practice, no source.</summary>
    internal const double Beyond = 10;

    /// <summary>Whether it lifts while the crank is turned to a stop, in running direction.</summary>
    public bool LiftsOnTheWay => Lifts != DecompressorLift.Backwards;

    /// <summary>Where it lifts on the way to a stop.</summary>
    /// <param name="stated">What the card says of it; nothing where it says nothing.</param>
    /// <returns>Intervals off the heel.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="stated"/> is null.</exception>
    public IReadOnlyList<OffHeel> LiftsAt(IReadOnlyList<OffHeel> stated)
    {
        ArgumentNullException.ThrowIfNull(stated);
        return stated.Count > 0 || !LiftsOnTheWay ? stated : [Usual];
    }
}
