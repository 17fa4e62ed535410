using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Shims;

public class InstrumentTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(0.1)]
    public void Uncertainties_WithinTheLimits_AreKept(double uncertainty)
    {
        var instrument = new Instrument("dial", uncertainty, uncertainty);
        Assert.Equal((uncertainty, uncertainty), (instrument.Random, instrument.Systematic));
    }

    [Theory]
    [InlineData(-1e-9)]
    [InlineData(0.1001)]
    public void Uncertainties_BeyondTheLimits_AreRefused(double uncertainty)
    {
        Refuses.OutOfRange("repeatability", uncertainty, "0 to 0.1", () => new Instrument("dial", uncertainty, 0));
        Refuses.OutOfRange("shared", uncertainty, "0 to 0.1", () => new Instrument("dial", 0, uncertainty));
    }

    [Fact]
    public void Uncertainties_NotANumber_AreRefused()
    {
        Refuses.NotANumber("repeatability", x => new Instrument("dial", x, 0));
        Refuses.NotANumber("shared", x => new Instrument("dial", 0, x));
    }

    [Fact]
    public void Name_Blank_IsRefused() => Assert.Throws<ArgumentException>("name", () => new Instrument(" ", 0, 0));

    [Fact]
    public void Defaults_AreThoseOfCommonPractice()
    {
        // Common practice, no source.
        Assert.Equal(new Instrument("marked", 0.008, 0), Instrument.Marked);
        Assert.Equal(new Instrument("calliper", 0.006, 0.010), Instrument.Calliper);
        Assert.Equal(new Instrument("micrometer", 0.002, 0.002), Instrument.Micrometer);
    }
}
