using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Sections;

public class WarmValueTests
{
    private const string Value = "$.check.readings[1].value";

    // E1's band is 0.20-0.26. A value that only its temperature puts out of reach left no estimate at all, but NaN.
    [Theory]
    [InlineData("-0.005", "90", "0.4", "which is 0.75 at 20 degrees C")]
    [InlineData("0.01", "150", "0.17", "which is -1.13 at 20 degrees C")]
    public void Read_ValueOutOfReachAtTwentyDegrees_IsRefused(string kappa, string temperature, string value, string words) => Reading.Refuses(
        Sample.Shims().Set("$.engine.temperature.kappaMmPerC", kappa).Set("$.check.temperatureC", temperature).Set("$.recheck.temperatureC", "20").Set(Value, value),
        Value,
        words);

    [Fact]
    public void Read_ValueInReachAtTwentyDegrees_IsTaken() => Reading.Takes(
        Sample.Shims().Set("$.engine.temperature.kappaMmPerC", "-0.001").Set("$.check.temperatureC", "90").Set(Value, "0.17"));
}
