using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.CamTiming;

/// <summary>
/// What opening and closing events say of a pair of camshafts. Crank degrees, except the separation, which is in
/// camshaft degrees as is usual. Duration = opens + 180 + closes; a lobe's centre lies half a duration after its opening.
/// What rests on events that are not known is null.
/// </summary>
/// <param name="Intake">The intake events, or null where they are not known.</param>
/// <param name="Exhaust">The exhaust events, or null where they are not known.</param>
public sealed record LobeTiming(CamEvents? Intake, CamEvents? Exhaust)
{
    /// <summary>How long the intake valve is open.</summary>
    public double? IntakeDuration => Intake?.Duration;

    /// <summary>How long the exhaust valve is open.</summary>
    public double? ExhaustDuration => Exhaust?.Duration;

    /// <summary>The intake lobe's centre, after top dead centre of the gas exchange.</summary>
    public double? IntakeCentre => (IntakeDuration / 2) - Intake?.Opens;

    /// <summary>The exhaust lobe's centre, before top dead centre of the gas exchange.</summary>
    public double? ExhaustCentre => (ExhaustDuration / 2) - Exhaust?.Closes;

    /// <summary>The angle between the lobes' centres, camshaft degrees.</summary>
    public double? Separation => (IntakeCentre + ExhaustCentre) / 2;

    /// <summary>How long both valves are open together; negative where neither is for a while.</summary>
    public double? Overlap => Intake?.Opens + Exhaust?.Closes;

    /// <summary>
    /// What events become when the clearance changes: on a ramp that lifts so much a crank degree, more clearance opens
    /// later and closes earlier by change/speed.
    /// </summary>
    /// <param name="events">The events before.</param>
    /// <param name="clearanceChange">Clearance gained, mm.</param>
    /// <param name="rampSpeed">Lift of the ramp, mm a crank degree, above 0.</param>
    /// <returns>The events after; null where the change is more than any cam's ramp could make up for.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="events"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="clearanceChange"/> or <paramref name="rampSpeed"/> is outside its range.</exception>
    public static CamEvents? AfterClearanceChange(CamEvents events, double clearanceChange, double rampSpeed)
    {
        ArgumentNullException.ThrowIfNull(events);
        double degrees = Guard.Finite(clearanceChange) / Guard.Within(rampSpeed, 1e-6, 1);
        return CamEvents.ArePossible(events.Opens - degrees, events.Closes - degrees)
            ? new CamEvents(events.Opens - degrees, events.Closes - degrees)
            : null;
    }
}
