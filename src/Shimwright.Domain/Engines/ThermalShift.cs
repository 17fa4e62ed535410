using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Engines;

/// <summary>
/// What a temperature other than 20 °C does to a gap. The estimate lives at 20 °C; a reading at t °C sees
/// the clearance at 20 °C plus κ·(t - 20). The sign of κ depends on the materials.
/// </summary>
public sealed record ThermalShift
{
    /// <summary>The temperature at which clearances are stated, °C (ISO 1:2022, reference temperature for lengths).</summary>
    public const double Reference = 20;

    /// <summary>The distance from 20 °C beyond which an unknown κ deserves a caution, °C.</summary>
    public const double Tolerated = 10;

    /// <summary>The coldest and hottest check that is taken, °C.</summary>
    public const double Coldest = -40, Hottest = 150;

    /// <summary>Makes the shift of a check at <paramref name="temperature"/> °C.</summary>
    /// <param name="temperature">Engine temperature at the check, -40 to 150 °C.</param>
    /// <param name="clearancePerDegree">κ, mm a degree; null where unknown.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="temperature"/> is outside its range.</exception>
    public ThermalShift(double temperature, double? clearancePerDegree)
    {
        Temperature = Guard.Within(temperature, Coldest, Hottest);
        IsKnown = clearancePerDegree.HasValue;
        Millimetres = (clearancePerDegree ?? 0) * (temperature - Reference);
    }

    /// <summary>A check at 20 °C.</summary>
    public static ThermalShift None { get; } = new(Reference, 0);

    /// <summary>Engine temperature at the check, °C.</summary>
    public double Temperature { get; }

    /// <summary>Whether the engine's κ is known.</summary>
    public bool IsKnown { get; }

    /// <summary>What the temperature adds to the gap, mm.</summary>
    public double Millimetres { get; }

    /// <summary>Whether the check was taken far from 20 °C with nothing known to correct it.</summary>
    public bool IsDoubtful => !IsKnown && Math.Abs(Temperature - Reference) > Tolerated;
}
