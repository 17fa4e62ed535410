using System.Diagnostics.CodeAnalysis;

namespace Shimwright.Jobs.Members;

/// <summary>
/// The units that the trade writes, for a build that has to be small: a phone loads no library of all units. What is written otherwise is
/// not read there. Inch: 25.4 mm (ISO 80000-1); Fahrenheit and kelvin against Celsius: ISO 80000-5.
/// </summary>
internal static class CommonUnits
{
    private const string Switch = "Shimwright.CommonUnits";

    /// <summary>Whether the build has nothing else; the compiler of the small build knows it and leaves the library out.</summary>
    [FeatureSwitchDefinition(Switch)]
    public static bool AreAll => AppContext.TryGetSwitch(Switch, out bool isOn) && isOn;

    /// <summary>A number in a unit, in the program's unit (mm, °C, min); null where there is no such unit.</summary>
    public static double? Read(double number, string unit, Measure measure) => measure switch
    {
        Measure.Length => unit switch
        {
            "mm" => number,
            "\u00b5m" or "um" => number / 1000,
            "cm" => number * 10,
            "m" => number * 1000,
            "in" => number * 25.4,
            "mil" => number * 0.0254,
            _ => null,
        },
        Measure.Temperature => unit switch
        {
            "\u00b0C" or "C" => number,
            "\u00b0F" or "F" => (number - 32) / 1.8,
            "K" => number - 273.15,
            _ => null,
        },
        Measure.Duration => unit switch
        {
            "min" => number,
            "h" or "hr" => number * 60,
            "s" or "sec" => number / 60,
            _ => null,
        },
        _ => null,
    };
}
