using Shimwright.Jobs.Members;
using UnitsNet;
using UnitsNet.Units;

namespace Shimwright.Jobs.Tests.Members;

/// <summary>The short list of units of the small build says what the library of all units says.</summary>
public class CommonUnitsTests
{
    private static readonly double[] Numbers = [0, 1, -40, 0.0127, 68, 5400];

    public static TheoryData<string, string> Units => new()
    {
        { nameof(Measure.Length), "mm" }, { nameof(Measure.Length), "µm" }, { nameof(Measure.Length), "cm" }, { nameof(Measure.Length), "m" },
        { nameof(Measure.Length), "in" }, { nameof(Measure.Length), "mil" },
        { nameof(Measure.Temperature), "°C" }, { nameof(Measure.Temperature), "°F" }, { nameof(Measure.Temperature), "K" },
        { nameof(Measure.Duration), "min" }, { nameof(Measure.Duration), "h" }, { nameof(Measure.Duration), "s" },
    };

    [Theory]
    [MemberData(nameof(Units))]
    public void Read_InEachUnit_IsWhatTheLibrarySays(string measure, string unit)
    {
        Measure of = Enum.Parse<Measure>(measure);
        Assert.All(Numbers, n => Assert.Equal(OfLibrary(n, unit, of), CommonUnits.Read(n, unit, of)!.Value, 9));
    }

    [Fact]
    public void Read_AnotherUnit_IsNone() => Assert.Null(CommonUnits.Read(1, "furlong", Measure.Length));

    private static double OfLibrary(double number, string unit, Measure measure) => measure switch
    {
        Measure.Length => Length.From(number, Length.ParseUnit(unit, System.Globalization.CultureInfo.InvariantCulture)).As(LengthUnit.Millimeter),
        Measure.Temperature => Temperature.From(number, Temperature.ParseUnit(unit, System.Globalization.CultureInfo.InvariantCulture)).As(TemperatureUnit.DegreeCelsius),
        _ => Duration.From(number, Duration.ParseUnit(unit, System.Globalization.CultureInfo.InvariantCulture)).As(DurationUnit.Minute),
    };
}
