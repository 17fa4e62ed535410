using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Members;

public class MeasuredTextTests
{
    private const string Value = "$.check.readings[1].value";
    private const string Temperature = "$.check.temperatureC";
    private const string Redo = "$.costs.redo";

    // The inch is 25.4 mm exactly (international yard and pound agreement of 1959, from memory).
    [Theory]
    [InlineData("0.005 in", 0.127)]
    [InlineData("5 thou", 0.127)]
    [InlineData("5 Thou", 0.127)]
    [InlineData("5thou", 0.127)]
    [InlineData("127 µm", 0.127)] // U+00B5, the micro sign
    [InlineData("127 μm", 0.127)] // U+03BC, the Greek letter
    [InlineData("0.13 mm", 0.13)]
    [InlineData("0.13mm", 0.13)]
    [InlineData(" 0.13 mm ", 0.13)]
    [InlineData("0.013 cm", 0.13)]
    [InlineData("-2 thou", -0.0508)]
    [InlineData("0.005\\\"", 0.127)]
    public void Read_LengthAsText_IsMillimetres(string text, double millimetres) =>
        Assert.Equal(millimetres, ValueOf(text), 9);

    // TM 10-4320-307-24 p. 2-223 prints 0.011 in as 0.028 mm and 0.023 in as 0.058 mm: a decimal place is lost.
    [Theory]
    [InlineData("0.011 in", 0.28, 0.028)]
    [InlineData("0.023 in", 0.58, 0.058)]
    public void Read_InchesOfAManualThatMisplacesThePoint_AreTheRightMillimetres(string inches, double right, double printed)
    {
        double read = ValueOf(inches);
        Assert.Equal(right, read, 2);
        Assert.True(read > 9 * printed);
    }

    [Theory]
    [InlineData("68 °F", 20)]
    [InlineData("68 F", 20)]
    [InlineData("68F", 20)]
    [InlineData("20 °C", 20)]
    [InlineData("20 C", 20)]
    [InlineData("-40 °F", -40)] // the two scales meet here
    [InlineData("212 °F", 100)]
    [InlineData("293.15 K", 20)]
    public void Read_TemperatureAsText_IsDegreesCelsius(string text, double celsius) => Assert.Equal(
        celsius, Reading.Takes(Sample.Shims().Set(Temperature, Quoted(text))).Check.Temperature, 9);

    [Theory]
    [InlineData("1.5 h", 90)]
    [InlineData("20 min", 20)]
    [InlineData("0.75 h", 45)]
    [InlineData("5400 s", 90)]
    public void Read_DurationAsText_IsMinutes(string text, double minutes) =>
        Assert.Equal(minutes, Reading.Takes(Sample.Shims().Set(Redo, Quoted(text))).Costs.Redo, 9);

    [Theory]
    [InlineData("")]
    [InlineData("mm")]
    [InlineData("five thou")]
    [InlineData("0.13")]
    [InlineData("0.13 m m")]
    [InlineData("0.13 mm 2")]
    [InlineData("1/8 in")]
    [InlineData("0.13 smidgens")]
    [InlineData("--5 thou")]
    [InlineData("0..13 mm")]
    [InlineData("5 kg")]
    [InlineData("20 °C")]
    [InlineData("20 min")]
    [InlineData("NaN mm")]
    [InlineData("Infinity mm")]
    [InlineData("-Infinity mm")]
    [InlineData("∞ mm")]
    [InlineData("1e400 in")]
    [InlineData("1e308 km")]
    public void Read_TextThatIsNoLength_IsRefused(string text) => Reading.Refuses(
        Sample.Shims().Set(Value, Quoted(text)), Value, $"found \"{text}\"; allowed is -10 to 10 mm");

    [Theory]
    [InlineData("20")]
    [InlineData("5 thou")]
    [InlineData("20 degrees")]
    [InlineData("20 min")]
    [InlineData("NaN °C")]
    [InlineData("1e400 °F")]
    [InlineData("C")]
    public void Read_TextThatIsNoTemperature_IsRefused(string text) => Reading.Refuses(
        Sample.Shims().Set(Temperature, Quoted(text)), Temperature, "allowed is -40 to 150 degrees C");

    [Theory]
    [InlineData("90")]
    [InlineData("an hour")]
    [InlineData("5 thou")]
    [InlineData("68 °F")]
    [InlineData("1:30")]
    [InlineData("Infinity h")]
    [InlineData("1e308 h")]
    [InlineData("-5 min")]
    public void Read_TextThatIsNoDuration_IsRefused(string text) => Reading.Refuses(
        Sample.Shims().Set(Redo, Quoted(text)), Redo, "allowed is 0 to 100000 min");

    [Theory]
    [InlineData("$.engine.ratio", "1.5 mm")]
    [InlineData("$.stock.drawer[0].count", "2")]
    [InlineData("$.stock.buy.price", "8 h")]
    [InlineData("$.check.clock", "118 h")]
    [InlineData("$.settings.keepFloor", "50 %")]
    public void Read_TextWhereANumberHasNoUnit_IsRefused(string path, string text) =>
        Reading.Refuses(Sample.Shims().Set(path, Quoted(text)), path, $"found \"{text}\"");

    [Theory]
    [InlineData(Value, "0,13 mm")]
    [InlineData(Value, "0,005 in")]
    [InlineData(Temperature, "2,5 °C")]
    [InlineData(Redo, "1,5 h")]
    [InlineData("$.check.fitted[0].thickness", "2,6 mm")]
    public void Read_DecimalComma_IsRefusedAndNeverTakenForThousands(string path, string text) =>
        Reading.Refuses(Sample.Shims().Set(path, Quoted(text)), path, $"found \"{text}\"");

    [Fact]
    public void Read_ThicknessInThou_KeepsTheLimitsOfMillimetres()
    {
        const string Path = "$.check.fitted[0].thickness";
        Reading.Takes(Sample.Shims().Set(Path, "\"472.4 thou\""));
        Reading.Refuses(Sample.Shims().Set(Path, "\"472.45 thou\""), Path, "allowed is 0.3 to 12 mm");
        Reading.Refuses(Sample.Shims().Set(Path, "\"11.8 thou\""), Path, "allowed is 0.3 to 12 mm");
    }

    [Fact]
    public void Plan_OfTheJobInThou_IsThatOfTheSameJobInMillimetres()
    {
        const string Job = "08-in-thou.json";
        JobDraft converted = Demo.Draft(Job);
        string[] measured = [.. converted.Paths().Where(p => Converted(converted.At(p)) is not null)];
        foreach (string path in measured)
        {
            converted.Set(path, Converted(converted.At(path))!.Value.ToString("R", CultureInfo.InvariantCulture));
        }

        Assert.Equal(31, measured.Length);
        Assert.DoesNotContain("thou", converted.Text, StringComparison.Ordinal);
        Assert.Equal(Answers.Plan(converted), Answers.Plan(Demo.Draft(Job)));
        Assert.Equal(Answers.Estimate(converted), Answers.Estimate(Demo.Draft(Job)));
    }

    /// <summary>Text with a unit in the program's own unit, by plain arithmetic; null for anything else.</summary>
    /// <summary>Every digit was tried with every one behind it: 80,000 of them took two minutes, the length squared.</summary>
    [Theory]
    [InlineData(Value, 65)]
    [InlineData(Value, 200_000)]
    [InlineData(Temperature, 200_000)]
    [InlineData(Redo, 200_000)]
    [InlineData("$.engine.ratio", 200_000)]
    public void Read_TextLongerThanANumberIs_IsRefusedAtOnce(string path, int digits)
    {
        Stopwatch watch = Stopwatch.StartNew();
        Reading.Refuses(Sample.Shims().Set(path, Quoted(new string('1', digits))), path, path == "$.engine.ratio" ? "allowed is" : "a number has at most 64 characters, its unit included; allowed is");
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, 5);
    }

    [Fact]
    public void Read_TextOfTheLongestLength_IsRead() => Assert.Equal(0.13, ValueOf("0.13 mm".PadLeft(64)), 9);

    private static double? Converted(JsonNode node)
    {
        if (node.GetValueKind() != System.Text.Json.JsonValueKind.String || node.GetValue<string>().Split(' ') is not [string number, string unit]
            || !double.TryParse(number, NumberStyles.Float, CultureInfo.InvariantCulture, out double value))
        {
            return null;
        }

        return unit switch
        {
            "thou" => value * 0.0254,
            "in" => value * 25.4,
            "°F" => (value - 32) / 1.8,
            "h" => value * 60,
            "min" => value,
            _ => null,
        };
    }

    private static double ValueOf(string text) =>
        Reading.Takes(Sample.Shims().Set("$.engine.valves[1].band", "[0.3, 0.4]").Set(Value, Quoted(text)).Remove("$.recheck"))
            .Check.Readings[1].Values[0].Millimetres;

    private static string Quoted(string text) => $"\"{text}\"";
}
