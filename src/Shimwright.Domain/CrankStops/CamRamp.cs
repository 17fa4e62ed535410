using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.CrankStops;

/// <summary>
/// By how much a valve is off its heel before and after its printed events. A cam takes up the clearance on a ramp, and events
/// are printed at a small lift, most often 1 mm, which the valve has reached well after it left its heel. Half of the widening
/// stands for the ramp; the other half for the way to that lift, and as a flank begins with about constant acceleration it goes
/// with the square root of the lift. Common practice, no source.
/// </summary>
public sealed record CamRamp
{
    /// <summary>The greatest lift at which events are taken, mm.</summary>
    public const double Highest = 5;

    /// <summary>The most that an opening is widened at either end for events at 1 mm, crank degrees.</summary>
    public const double Widest = 180;

    /// <summary>Makes a ramp.</summary>
    /// <param name="degrees">The widening at either end for events at 1 mm, crank degrees, 0 to 180.</param>
    /// <param name="eventsAt">The lift at which the events are given, mm, 0 to 5.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="degrees"/> or <paramref name="eventsAt"/> is outside its range.</exception>
    public CamRamp(double degrees = 20, double eventsAt = 1)
    {
        Degrees = Guard.Within(degrees, 0, Widest);
        EventsAt = Guard.Within(eventsAt, 0, Highest);
    }

    /// <summary>The widening at either end for events at 1 mm, and of any interval that is no lobe's, crank degrees.</summary>
    public double Degrees { get; }

    /// <summary>The lift at which the events are given, mm.</summary>
    public double EventsAt { get; }

    /// <summary>The widening of an opening at either end, crank degrees: half of it at no lift, all of it at 1 mm.</summary>
    public double OfEvents => Degrees * (1 + Math.Sqrt(EventsAt)) / 2;
}
