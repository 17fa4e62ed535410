using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Wear;

/// <summary>
/// A valve seat of angle α (to the plane across the valve, 45° as a rule, so that 0° would be a flat seat). Metal worn
/// away to a depth w normal to the seat's face lets the valve sink by w/cos α along its stem; the stem rises towards the
/// cam by as much, and the clearance at the gap falls by that times the ratio. Plain geometry.
/// </summary>
public static class SeatWear
{
    /// <summary>The flattest and steepest seat that is taken, degrees.</summary>
    public const double Flattest = 0, Steepest = 80;

    /// <summary>How far the valve sinks.</summary>
    /// <param name="normalWear">Metal lost normal to the face, seat and valve together, mm.</param>
    /// <param name="seatAngle">α, degrees, 0 to 80.</param>
    /// <returns>Axial recession, mm.</returns>
    public static double RecessionOf(double normalWear, double seatAngle) =>
        Guard.Finite(normalWear) / Math.Cos(Radians(seatAngle));

    /// <summary>How much metal a recession took.</summary>
    /// <param name="recession">Axial recession, mm.</param>
    /// <param name="seatAngle">α, degrees, 0 to 80.</param>
    /// <returns>Wear normal to the face, mm.</returns>
    public static double NormalWearOf(double recession, double seatAngle) =>
        Guard.Finite(recession) * Math.Cos(Radians(seatAngle));

    /// <summary>What a recession takes from the clearance.</summary>
    /// <param name="recession">Axial recession, mm.</param>
    /// <param name="ratio">Clearance at the gap per unit of movement at the stem.</param>
    /// <returns>Clearance lost, mm.</returns>
    public static double ClearanceLost(double recession, double ratio = 1) => Guard.Finite(recession) * Guard.Within(ratio, 0.1, 5);

    /// <summary>The recession behind a loss of clearance, where nothing else moved.</summary>
    /// <param name="clearanceLost">Clearance lost, mm.</param>
    /// <param name="ratio">Clearance at the gap per unit of movement at the stem.</param>
    /// <returns>Axial recession, mm.</returns>
    public static double RecessionBehind(double clearanceLost, double ratio = 1) => Guard.Finite(clearanceLost) / Guard.Within(ratio, 0.1, 5);

    private static double Radians(double degrees) => Guard.Within(degrees, Flattest, Steepest) * Math.PI / 180;
}
