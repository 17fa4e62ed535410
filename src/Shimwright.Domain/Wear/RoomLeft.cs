using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Wear;

/// <summary>
/// How far a valve can still be shimmed as it recedes: the thickness above the thinnest shim that can be had. When it is
/// used up the job is one for the head, not for shims.
/// </summary>
public sealed record RoomLeft
{
    private RoomLeft(double millimetres, double? time)
    {
        Millimetres = millimetres;
        Time = time;
    }

    /// <summary>Thickness above the thinnest shim that can be had, mm; 0 where there is none.</summary>
    public double Millimetres { get; }

    /// <summary>Hours or km until it is used up at the expected rate; null where no clearance is being lost.</summary>
    public double? Time { get; }

    /// <summary>The room of a valve.</summary>
    /// <param name="fitted">The thickness in it, mm.</param>
    /// <param name="thinnest">The thinnest that can be had, mm.</param>
    /// <param name="leverage">ρ.</param>
    /// <param name="rate">Clearance lost per hour or km, mm.</param>
    /// <returns>The room.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="leverage"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="fitted"/> or <paramref name="thinnest"/> is not finite.</exception>
    public static RoomLeft Of(double fitted, double thinnest, Leverage leverage, double rate)
    {
        ArgumentNullException.ThrowIfNull(leverage);
        double room = Math.Max(0, Guard.Finite(fitted) - Guard.Finite(thinnest));
        return new(room, rate > 0 ? leverage.AtTheGap(room) / rate : null);
    }
}
