using System.Globalization;
using System.Text.RegularExpressions;
using UnitsNet;
using UnitsNet.Units;

namespace Shimwright.Jobs.Members;

/// <summary>Numbers written as text with a unit: "0.005 in", "5 thou", "68 °F", "1.5 h".</summary>
internal static partial class MeasuredText
{
    /// <summary>The value in the program's unit (mm, °C, min), or null where the text is no such quantity.</summary>
    public static double? Read(string text, Measure measure)
    {
        CultureInfo culture = CultureInfo.InvariantCulture;
        switch (measure)
        {
            case Measure.Length:
                string spelled = Thou().Replace(text, "mil").Replace("\"", "in", StringComparison.Ordinal);
                return Length.TryParse(spelled, culture, out Length length) ? length.As(LengthUnit.Millimeter) : null;
            case Measure.Temperature:
                string degrees = BareDegrees().Replace(text, "°$1");
                return Temperature.TryParse(degrees, culture, out Temperature temperature)
                    ? temperature.As(TemperatureUnit.DegreeCelsius)
                    : null;
            case Measure.Duration:
                return Duration.TryParse(text, culture, out Duration duration) ? duration.As(DurationUnit.Minute) : null;
            default:
                return null;
        }
    }

    /// <summary>An example of the text that a measure takes, for messages and the schema.</summary>
    public static string? Example(Measure measure) => measure switch
    {
        Measure.Length => "0.005 in",
        Measure.Temperature => "68 °F",
        Measure.Duration => "1.5 h",
        _ => null,
    };

    [GeneratedRegex("thou\\b", RegexOptions.IgnoreCase)]
    private static partial Regex Thou();

    [GeneratedRegex("(?<=[0-9]\\s*)([CF])$")]
    private static partial Regex BareDegrees();
}
