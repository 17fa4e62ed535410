using System.Globalization;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;

namespace Shimwright.Jobs.Guidance;

/// <summary>The unit in which lengths are shown.</summary>
public enum LengthUnit
{
    /// <summary>Millimetres.</summary>
    Mm,

    /// <summary>Inches.</summary>
    In,

    /// <summary>Thousandths of an inch.</summary>
    Thou,
}

/// <summary>How lengths, which are millimetres everywhere inside, are written for people.</summary>
/// <param name="Unit">The unit.</param>
public sealed record LengthStyle(LengthUnit Unit)
{
    /// <summary>Millimetres.</summary>
    public static LengthStyle Millimetres { get; } = new(LengthUnit.Mm);

    /// <summary>The unit's name.</summary>
    public string UnitName => Unit switch { LengthUnit.In => "in", LengthUnit.Thou => "thou", _ => "mm" };

    /// <summary>How lengths are written in sentences.</summary>
    public LengthWords Words => new(Clearance, Shim, UnitName);

    /// <summary>The unit of a name, or null.</summary>
    /// <param name="name">mm, in or thou.</param>
    /// <returns>The unit.</returns>
    public static LengthUnit? UnitOf(string? name) => name switch
    {
        "mm" => LengthUnit.Mm,
        "in" => LengthUnit.In,
        "thou" => LengthUnit.Thou,
        _ => null,
    };

    /// <summary>A clearance, to about a micrometre.</summary>
    /// <param name="millimetres">The clearance, mm.</param>
    /// <returns>A number without its unit.</returns>
    public string Clearance(double millimetres) => Unit switch
    {
        LengthUnit.In => Text(InInches(millimetres), "0.0000;-0.0000;0.0000"),
        LengthUnit.Thou => Text(InInches(millimetres) * 1000, "0.0;-0.0;0.0"),
        _ => Text(millimetres, "0.000;-0.000;0.000"),
    };

    /// <summary>A shim: hundredths of a millimetre, and the third digit where it has one.</summary>
    /// <param name="millimetres">The thickness, mm.</param>
    /// <returns>A number without its unit.</returns>
    public string Shim(double millimetres) => Unit == LengthUnit.Mm ? Text(millimetres, "0.00#") : Clearance(millimetres);

    /// <summary>A band.</summary>
    /// <param name="band">The band.</param>
    /// <returns>Two numbers without their unit.</returns>
    public string Band(ClearanceBand band)
    {
        ArgumentNullException.ThrowIfNull(band);
        return $"{Clearance(band.Low)}-{Clearance(band.High)}";
    }

    private static double InInches(double millimetres) => UnitsNet.Length.FromMillimeters(millimetres).Inches;

    private static string Text(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
