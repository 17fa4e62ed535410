using System.Globalization;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Measures;

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
    /// <summary>Nanometres: finer than anything that is measured, coarse enough to take the noise of a conversion away.</summary>
    private const int FinestDigits = 6;

    /// <summary>Millimetres.</summary>
    public static LengthStyle Millimetres { get; } = new(LengthUnit.Mm);

    /// <summary>The unit's name.</summary>
    public string UnitName => Unit switch { LengthUnit.In => "in", LengthUnit.Thou => "thou", _ => "mm" };

    /// <summary>The style for bare numbers of a form in which a unit was chosen.</summary>
    /// <param name="unit">mm, in or thou; anything else leaves the style as it is.</param>
    /// <returns>The style.</returns>
    public LengthStyle In(string? unit) => UnitOf(unit) is { } chosen ? new(chosen) : this;

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

    /// <summary>How a bench writes lengths.</summary>
    /// <param name="settings">Its settings.</param>
    /// <returns>The style.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="settings"/> is null.</exception>
    public static LengthStyle Of(BenchSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return new(UnitOf(settings.Unit) ?? LengthUnit.Mm);
    }

    /// <summary>A clearance, to about a micrometre.</summary>
    /// <param name="millimetres">The clearance, mm.</param>
    /// <returns>A number without its unit.</returns>
    public string Clearance(double millimetres) => Unit switch
    {
        LengthUnit.In => Text(InInches(millimetres), "0.0000;-0.0000;0.0000"),
        LengthUnit.Thou => Text(InInches(millimetres) * 1000, "0.0;-0.0;0.0"),
        _ => Text(millimetres, "0.000;-0.000;0.000"),
    };

    /// <summary>A length to a tenth of a micrometre or nearly, for what a doubt is made of.</summary>
    /// <param name="millimetres">The length, mm.</param>
    /// <returns>A number without its unit.</returns>
    public string Fine(double millimetres) => Unit switch
    {
        LengthUnit.In => Text(InInches(millimetres), "0.00000;-0.00000;0.00000"),
        LengthUnit.Thou => Text(InInches(millimetres) * 1000, "0.00;-0.00;0.00"),
        _ => Text(millimetres, "0.0000;-0.0000;0.0000"),
    };

    /// <summary>A shim: hundredths of a millimetre, and the third digit where it has one.</summary>
    /// <param name="millimetres">The thickness, mm.</param>
    /// <returns>A number without its unit.</returns>
    public string Shim(double millimetres) => Unit == LengthUnit.Mm ? Text(millimetres, "0.00#") : Clearance(millimetres);

    /// <summary>A shim with how its thickness is known: what is marked in millimetres is shown as it is marked, in any unit.</summary>
    /// <param name="millimetres">The thickness, mm.</param>
    /// <param name="by">marked, calliper or micrometer.</param>
    /// <returns>A number, in another unit than this one with its unit.</returns>
    public string Shim(double millimetres, string by) => by == "marked" && IsRoundInMillimetresOnly(millimetres) ? Text(millimetres, "0.00#") + " mm" : Shim(millimetres);

    private bool IsRoundInMillimetresOnly(double millimetres) => Unit != LengthUnit.Mm && Field(millimetres).EndsWith(" mm", StringComparison.Ordinal);

    /// <summary>A band.</summary>
    /// <param name="band">The band.</param>
    /// <returns>Two numbers without their unit.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="band"/> is null.</exception>
    public string Band(ClearanceBand band)
    {
        ArgumentNullException.ThrowIfNull(band);
        return $"{Clearance(band.Low)}-{Clearance(band.High)}";
    }

    /// <summary>A length as it is put into a field: in the unit where it is a round number there, else in millimetres and saying so.</summary>
    /// <param name="millimetres">The length, mm.</param>
    /// <returns>A text that <see cref="Read"/> turns into the same length.</returns>
    public string Field(double millimetres)
    {
        (double shown, int digits) = Unit switch
        {
            LengthUnit.In => (InInches(millimetres), 4),
            LengthUnit.Thou => (InInches(millimetres) * 1000, 1),
            _ => (millimetres, FinestDigits),
        };
        double round = Math.Round(shown, digits);
        return Math.Abs(shown - round) <= 1e-9 * Math.Max(1, Math.Abs(shown))
            ? Text(round, "0.######")
            : Text(millimetres, "0.######") + " mm";
    }

    /// <summary>The same with its unit always beside it, for a field beside which another unit can be chosen.</summary>
    /// <param name="millimetres">The length, mm.</param>
    /// <returns>A text that <see cref="Read"/> turns into the same length in any style.</returns>
    public string FieldWithUnit(double millimetres) => Field(millimetres) is var text && text.Contains(' ', StringComparison.Ordinal) ? text : $"{text} {UnitName}";

    /// <summary>A length that a person typed: in this unit unless the text names mm, in (or ") or thou.</summary>
    /// <param name="text">What was typed; a comma or a point before the decimals, nothing between thousands.</param>
    /// <param name="path">The field, for the problem.</param>
    /// <param name="needed">Whether a blank field is a problem.</param>
    /// <returns>Millimetres, to the nanometre.</returns>
    public TypedNumber Read(string? text, string path = "value", bool needed = true) =>
        TypedNumber.Read(text, path, needed, Example, thousandsLikely: false, unit =>
        {
            string? named = unit.ToUpperInvariant() switch
            {
                "" => UnitName,
                "MM" => "mm",
                "IN" or "INCH" or "\"" or "\u2033" => "in",
                "THOU" => "thou",
                _ => null,
            };
            return named is null ? null : n => TypedNumber.In(named, Measure.Length)(n) is { } mm ? Math.Round(mm, FinestDigits) : null;
        });

    private string Example => Unit switch
    {
        LengthUnit.In => "0.005, 5 thou or 0.13 mm",
        LengthUnit.Thou => "5, 0.005 in or 0.13 mm",
        _ => "0.13, 0,13 or 5 thou",
    };

    private static double InInches(double millimetres) => CommonUnits.AreAll ? millimetres / 25.4 : UnitsNet.Length.FromMillimeters(millimetres).Inches;

    private static string Text(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
