using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// What is expected of an engine whose history is unknown, before anything is felt: its valves started near the
/// middle of their bands and have lost clearance since, part of it together, of which each has a share of its own, and part of it each alone.
/// The defaults are common practice, no source.
/// </summary>
public sealed record LossPrior
{
    /// <summary>The greatest shared loss that is considered, mm.</summary>
    public const double GreatestShared = 0.24;

    /// <summary>The weight of a valve that fits no expectation.</summary>
    public const double StrayWeight = 0.03;

    /// <summary>How far from the middle of its band a stray valve may be, mm either way.</summary>
    public const double StrayReach = 0.5;

    /// <summary>The shape of the gamma distribution of a valve's share of the shared loss, whose mean is 1.</summary>
    public const int ShareShape = 2;

    /// <summary>How well the clearance of a side is known whose seats or valves were worked on: standard deviation about the middle of the band, and where it ends, mm either way.</summary>
    public const double HeadWorkStandardDeviation = 0.25, HeadWorkReach = 0.8;

    /// <summary>The least and greatest mean loss that is taken, mm.</summary>
    public const double LeastMean = 0.001, GreatestMean = 1;

    /// <summary>Makes an expectation.</summary>
    /// <param name="shared">Scale of the loss that the valves share, mm, 0.001 to 1.</param>
    /// <param name="own">Mean of the loss that each valve has on its own, mm, 0.001 to 1.</param>
    /// <param name="intakeReworked">Whether the intake side's seats were cut, its valves ground or new parts fitted.</param>
    /// <param name="exhaustReworked">The same of the exhaust side.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="shared"/> or <paramref name="own"/> is outside its range.</exception>
    public LossPrior(double shared = 0.04, double own = 0.02, bool intakeReworked = false, bool exhaustReworked = false)
    {
        Shared = Guard.Within(shared, LeastMean, GreatestMean);
        Own = Guard.Within(own, LeastMean, GreatestMean);
        IntakeReworked = intakeReworked;
        ExhaustReworked = exhaustReworked;
    }

    /// <summary>Ordinary wear.</summary>
    public static LossPrior Ordinary { get; } = new();

    /// <summary>Dust is known to have got in.</summary>
    public static LossPrior Dust { get; } = new(0.08, 0.02);

    /// <summary>Scale of the shared loss, mm.</summary>
    public double Shared { get; }

    /// <summary>Mean of each valve's own loss, mm.</summary>
    public double Own { get; }

    /// <summary>Whether the intake side's seats were cut, its valves ground or new parts fitted.</summary>
    public bool IntakeReworked { get; }

    /// <summary>Whether the exhaust side's seats were cut, its valves ground or new parts fitted.</summary>
    public bool ExhaustReworked { get; }

    /// <summary>Head work on either or both sides: their valves may be anywhere, and share nothing.</summary>
    /// <param name="intake">Whether the intake side was worked on.</param>
    /// <param name="exhaust">Whether the exhaust side was.</param>
    /// <returns>The expectation; a side that was not worked on has ordinary wear.</returns>
    public static LossPrior HeadWork(bool intake, bool exhaust) => new(intakeReworked: intake, exhaustReworked: exhaust);

    /// <summary>Whether a side was worked on, so that nothing is known of its clearances.</summary>
    /// <param name="side">Intake or exhaust.</param>
    /// <returns>True where it was.</returns>
    public bool IsReworked(ValveSide side) => side == ValveSide.Intake ? IntakeReworked : ExhaustReworked;

    /// <summary>
    /// The density of y = s·Z - x, Z standard normal and x exponential with mean <see cref="Own"/>: where a valve
    /// lies about the middle of its band, less the shared loss, when the band sets s.
    /// </summary>
    internal double OwnDensity(double y, double s)
    {
        double ratio = s / Own;
        double log = (ratio * ratio / 2) + (y / Own) + StandardNormal.LogCdf(-(y / s) - ratio) - Math.Log(Own);
        return Math.Exp(log);
    }
}
