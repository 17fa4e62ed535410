using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Engines;

/// <summary>κ: what heat adds to the gaps of either side, mm for each degree above 20 °C; negative where gaps close as the engine warms.</summary>
public sealed record HeatGain
{
    /// <summary>Makes a gain.</summary>
    /// <param name="intake">κ of the intake valves, mm a degree.</param>
    /// <param name="exhaust">κ of the exhaust valves, mm a degree.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="intake"/> or <paramref name="exhaust"/> is not finite.</exception>
    public HeatGain(double intake, double exhaust)
    {
        Intake = Guard.Finite(intake);
        Exhaust = Guard.Finite(exhaust);
    }

    /// <summary>κ of the intake valves, mm a degree.</summary>
    public double Intake { get; }

    /// <summary>κ of the exhaust valves, mm a degree.</summary>
    public double Exhaust { get; }

    /// <summary>Whether both sides have the same.</summary>
    public bool IsEven => Intake == Exhaust;

    /// <summary>Whether heat moves no gap.</summary>
    public bool IsNone => Intake == 0 && Exhaust == 0;

    /// <summary>κ of a side.</summary>
    /// <param name="side">Intake or exhaust.</param>
    /// <returns>mm a degree.</returns>
    public double Of(ValveSide side) => side == ValveSide.Intake ? Intake : Exhaust;

    /// <summary>
    /// κ of a valve that closes over a height: the head grows by h·α_head a degree and carries the camshaft away, the valve
    /// grows by h·α_valve and follows it. Linear expansion, ISO 1:2022 for the reference temperature.
    /// </summary>
    /// <param name="height">The height from the valve's seat to the cam, mm.</param>
    /// <param name="head">Expansion of the head, for each degree.</param>
    /// <param name="valve">Expansion of the valve, for each degree.</param>
    /// <returns>mm a degree.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="height"/>, <paramref name="head"/> or <paramref name="valve"/> is not finite.</exception>
    public static double Between(double height, double head, double valve) =>
        Guard.Finite(height) * (Guard.Finite(head) - Guard.Finite(valve));
}
