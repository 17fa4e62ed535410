using Shimwright.Jobs.Measures;

namespace Shimwright.Jobs.Tests.Measures;

public class TypedNumberTests
{
    [Theory]
    [InlineData(LengthUnit.Mm, "0.13", 0.13)]
    [InlineData(LengthUnit.Mm, "0,13", 0.13)]
    [InlineData(LengthUnit.Mm, " ,13 ", 0.13)]
    [InlineData(LengthUnit.Mm, "2,620", 2.62)]
    [InlineData(LengthUnit.Mm, "2.62mm", 2.62)]
    [InlineData(LengthUnit.Mm, "5 thou", 0.127)]
    [InlineData(LengthUnit.Mm, "0.005\"", 0.127)]
    [InlineData(LengthUnit.Mm, "0,005 IN", 0.127)]
    [InlineData(LengthUnit.In, "0.005", 0.127)]
    [InlineData(LengthUnit.In, "0.13 mm", 0.13)]
    [InlineData(LengthUnit.Thou, "5", 0.127)]
    [InlineData(LengthUnit.Thou, "5,5", 0.1397)]
    [InlineData(LengthUnit.Mm, "\u22120.02", -0.02)]
    public void Read_ALength_IsMillimetres(LengthUnit unit, string text, double millimetres)
    {
        // One inch is 25.4 mm exactly: international yard and pound agreement, 1959; NIST Special Publication 811, appendix B.
        TypedNumber number = new LengthStyle(unit).Read(text, "blade");
        Assert.Null(number.Problem);
        Assert.Equal(millimetres, number.Value!.Value, 1e-12);
    }

    [Theory]
    [InlineData("NaN")]
    [InlineData("\u221e")]
    [InlineData("Infinity")]
    [InlineData("1,234.5")]
    [InlineData("1 234")]
    [InlineData("0.13 kg")]
    [InlineData("0.13 0.15")]
    [InlineData("1e-3")]
    [InlineData("light")]
    [InlineData("0..1")]
    public void Read_NoLength_NamesTheValueTheRuleAndTheNextStep(string text)
    {
        TypedNumber number = LengthStyle.Millimetres.Read(text, "blade");
        Assert.Null(number.Value);
        Assert.Equal("blade", number.Problem!.Path);
        Assert.Contains(text, number.Problem.Found, StringComparison.Ordinal);
        Assert.Contains("such as 0.13", number.Problem.Allowed, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_MoreDigitsThanANumberHolds_IsRefused() =>
        Assert.NotNull(LengthStyle.Millimetres.Read(new string('9', 400)).Problem);

    [Theory]
    [InlineData("")]
    [InlineData("  ")]
    [InlineData(null)]
    public void Read_NothingWritten_IsAProblemOnlyWhereANumberIsNeeded(string? text)
    {
        Assert.Contains("nothing was entered", LengthStyle.Millimetres.Read(text).Problem!.Found, StringComparison.Ordinal);
        Assert.Equal(new TypedNumber(null, null), LengthStyle.Millimetres.Read(text, "pitch", needed: false));
    }

    [Theory]
    [InlineData(LengthUnit.Mm, 0.05, "0.05")]
    [InlineData(LengthUnit.Mm, 2.625, "2.625")]
    [InlineData(LengthUnit.In, 0.127, "0.005")]
    [InlineData(LengthUnit.In, 0.05, "0.05 mm")]
    [InlineData(LengthUnit.Thou, 0.127, "5")]
    [InlineData(LengthUnit.Thou, 0.0635, "2.5")]
    [InlineData(LengthUnit.Thou, 0.13, "0.13 mm")]
    public void Field_ALength_ReadsBackAsItself(LengthUnit unit, double millimetres, string text)
    {
        var style = new LengthStyle(unit);
        Assert.Equal(text, style.Field(millimetres));
        Assert.Equal(millimetres, style.Read(text).Value);
    }

    [Fact]
    public void Minutes_HoursNamed_AreConverted() => Assert.Equal(90, TypedNumber.Minutes("1,5 h", "redo").Value!.Value, 1e-9);

    [Theory]
    [InlineData("68 °F", 20)]
    [InlineData("20", 20)]
    [InlineData("-5,5 °C", -5.5)]
    [InlineData("68F", 20)]
    public void Temperature_AUnit_IsConverted(string text, double celsius) =>
        // The Fahrenheit scale: 32 °F is 0 °C and 180 of its degrees are 100 kelvins (NIST Special Publication 811, appendix B).
        Assert.Equal(celsius, TypedNumber.Temperature(text, "temperature").Value!.Value, 1e-9);

    [Theory]
    [InlineData("20°", 20)]
    [InlineData("12,5 deg", 12.5)]
    [InlineData("-7", -7)]
    public void Degrees_OfTheCrank_AreRead(string text, double degrees) => Assert.Equal(degrees, TypedNumber.Degrees(text, "marks").Value);

    [Theory]
    [InlineData("118", "h", 118)]
    [InlineData("118,5 h", "h", 118.5)]
    [InlineData("12500 km", "km", 12500)]
    public void Clock_InItsUnit_IsRead(string text, string unit, double clock) => Assert.Equal(clock, TypedNumber.Clock(text, "clock", unit).Value);

    [Theory]
    [InlineData("12,500", "12500 or 12.5")]
    [InlineData("12.500", "12500 or 12.5")]
    [InlineData("120.000", "120000 or 120")]
    public void Clock_PerhapsThousands_AsksWhichIsMeant(string text, string question) =>
        Assert.Contains(question, TypedNumber.Clock(text, "clock", "km").Problem!.Allowed, StringComparison.Ordinal);

    [Fact]
    public void Clock_InAnotherUnit_IsRefused() => Assert.NotNull(TypedNumber.Clock("118 km", "clock", "h").Problem);

    [Fact]
    public void Note_AProblem_IsAdded()
    {
        List<Shimwright.Jobs.Members.JobProblem> problems = [];
        Assert.Null(TypedNumber.Plain("two", "count").Note(problems));
        Assert.Equal(2, TypedNumber.Plain("2", "count").Note(problems));
        Assert.Single(problems);
    }

    [Theory]
    [InlineData(65)]
    [InlineData(200_000)]
    public void Read_LongerThanANumberIs_IsRefusedAtOnce(int digits)
    {
        System.Diagnostics.Stopwatch watch = System.Diagnostics.Stopwatch.StartNew();
        TypedNumber number = LengthStyle.Millimetres.Read(new string('1', digits) + "!", "blade");
        Assert.Contains("a number has at most 64 characters", number.Problem!.Allowed, StringComparison.Ordinal);
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, 5);
    }
}
