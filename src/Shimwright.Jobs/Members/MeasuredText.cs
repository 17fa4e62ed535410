using System.Globalization;
using System.Text.RegularExpressions;
using Shimwright.Jobs.Bounds;
using UnitsNet;
using UnitsNet.Units;

namespace Shimwright.Jobs.Members;

/// <summary>
/// Numbers written as text with a unit: "0.005 in", "5 thou", "68 °F", "1.5 h". The number is read here, with a decimal
/// point and nothing between the thousands; UnitsNet knows the units.
/// </summary>
internal static partial class MeasuredText
{
    /// <summary>More than any length, temperature or time of work in any unit; what is above overflows on conversion.</summary>
    private const double Greatest = 1e12;

    /// <summary>The value in the program's unit (mm, °C, min), or null where the text is no such quantity.</summary>
    public static double? Read(string text, Measure measure)
    {
        if (text.Length > Limits.LongestNumber
            || NumberAndUnit().Match(text) is not { Success: true } match
            || !double.TryParse(match.Groups["number"].ValueSpan, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)
            || !(Math.Abs(number) <= Greatest))
        {
            return null;
        }

        string unit = match.Groups["unit"].Value;
        return CommonUnits.AreAll ? CommonUnits.Read(number, measure == Measure.Length ? Spelled(unit) : unit, measure) : OfLibrary(number, unit, measure);
    }

    private static double? OfLibrary(double number, string unit, Measure measure) =>
        measure switch
        {
            Measure.Length when Unit<LengthUnit>(Spelled(unit)) is { } u => Length.From(number, u).As(LengthUnit.Millimeter),
            Measure.Temperature when Unit<TemperatureUnit>(unit is "C" or "F" ? $"°{unit}" : unit) is { } u =>
                Temperature.From(number, u).As(TemperatureUnit.DegreeCelsius),
            Measure.Duration when Unit<DurationUnit>(unit) is { } u => Duration.From(number, u).As(DurationUnit.Minute),
            _ => null,
        };

    /// <summary>An example of the text that a measure takes, for messages and the schema.</summary>
    public static string? Example(Measure measure) => measure switch
    {
        Measure.Length => "0.005 in",
        Measure.Temperature => "68 °F",
        Measure.Duration => "1.5 h",
        _ => null,
    };

    private static T? Unit<T>(string text)
        where T : struct, Enum =>
        UnitsNetSetup.Default.UnitParser.TryParse(text, CultureInfo.InvariantCulture, out T unit) ? unit : null;

    /// <summary>What the trade writes for a unit, in the spelling that the library knows.</summary>
    private static string Spelled(string unit) => unit switch
    {
        "\"" or "\u2033" => "in",
        _ when unit.Equals("thou", StringComparison.OrdinalIgnoreCase) => "mil",
        _ => unit.Replace('\u03bc', '\u00b5'),
    };

    [GeneratedRegex(@"^\s*(?<number>[-+]?(?>[0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][-+]?[0-9]+)?)\s*(?<unit>[^\s0-9]\S*)\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex NumberAndUnit();
}
