using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.CrankStops;

/// <summary>
/// When a valve opens and closes, in crank degrees about its dead centres: an intake valve opens before top and closes
/// after bottom dead centre, an exhaust valve opens before bottom and closes after top dead centre. Negative where it is
/// the other side of the dead centre.
/// </summary>
public sealed record CamEvents
{
    /// <summary>The furthest that an event may lie from its dead centre, crank degrees.</summary>
    public const double Furthest = 180;

    /// <summary>Makes events.</summary>
    /// <param name="opens">Crank degrees before its dead centre at which it opens, -180 to 180.</param>
    /// <param name="closes">Crank degrees after its dead centre at which it closes, -180 to 180.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="opens"/> or <paramref name="closes"/> is outside its range.</exception>
    public CamEvents(double opens, double closes)
    {
        Opens = Guard.Within(opens, -Furthest, Furthest);
        Closes = Guard.Within(closes, -Furthest, Furthest);
        Guard.Within(Duration, double.Epsilon, CrankAngle.Cycle, "duration");
    }

    /// <summary>Whether events lie within reach of their dead centres and leave the valve open for a while.</summary>
    /// <param name="opens">Crank degrees before its dead centre at which it opens.</param>
    /// <param name="closes">Crank degrees after its dead centre at which it closes.</param>
    /// <returns>True where events can be made of them.</returns>
    public static bool ArePossible(double opens, double closes) =>
        Math.Abs(opens) <= Furthest && Math.Abs(closes) <= Furthest && opens + 180 + closes > 0;

    /// <summary>Crank degrees before its dead centre at which it opens.</summary>
    public double Opens { get; }

    /// <summary>Crank degrees after its dead centre at which it closes.</summary>
    public double Closes { get; }

    /// <summary>How long it is open: opens + 180 + closes, crank degrees.</summary>
    public double Duration => Opens + 180 + Closes;

    /// <summary>Where it is open, in crank degrees after its own cylinder's compression TDC.</summary>
    /// <param name="side">Intake or exhaust.</param>
    /// <returns>The interval from opening to closing.</returns>
    public OffHeel OnSide(ValveSide side) => side == ValveSide.Intake
        ? new OffHeel(360 - Opens, Duration)
        : new OffHeel(180 - Opens, Duration);
}

/// <summary>An interval in which a valve is off the heel of its cam.</summary>
/// <param name="From">Where it begins, crank degrees after its own cylinder's compression TDC.</param>
/// <param name="Length">How long it is, crank degrees, in running direction.</param>
public readonly record struct OffHeel(double From, double Length)
{
    /// <summary>The interval with a cam's ramp at both ends.</summary>
    /// <param name="ramp">By how much it is widened at either end, crank degrees.</param>
    /// <returns>The wider interval.</returns>
    public OffHeel Widened(double ramp) => new(From - ramp, Length + (2 * ramp));

    /// <summary>The same interval counted from another place.</summary>
    /// <param name="degrees">How much later it begins there, crank degrees.</param>
    /// <returns>The later interval.</returns>
    public OffHeel Later(double degrees) => new(From + degrees, Length);
}
