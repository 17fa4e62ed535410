using Shimwright.Jobs.Measures;

namespace Shimwright.Jobs.Tests.Measures;

/// <summary>The clock as it is typed and shown. A mile is 1.609344 km (international agreement of 1959; NIST SP 811, appendix B.8).</summary>
public class ClockStyleTests
{
    [Theory]
    [InlineData("mi", "100", 160.9344)]
    [InlineData("km", "100", 100)]
    [InlineData("h", "118.5", 118.5)]
    public void Read_AReading_IsKeptInHoursOrKilometres(string unit, string typed, double kept)
    {
        ClockStyle style = new(unit);
        Assert.Equal(kept, style.Read(typed, "clock").Value!.Value, 1e-9);
        Assert.Equal($"{typed} {unit}", style.Text(kept));
    }
}
