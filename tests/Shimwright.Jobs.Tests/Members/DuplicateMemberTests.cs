using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Members;

public class DuplicateMemberTests
{
    [Theory]
    [InlineData("\"format\":\"shimwright-job/1\"", "$.format")]
    [InlineData("\"valvetrain\":\"shim-under-bucket\"", "$.engine.valvetrain")]
    [InlineData("\"access\":\"exhaust cam\"", "$.engine.valves[1].access")]
    [InlineData("\"clock\":118", "$.check.clock")]
    [InlineData("\"u\":0.01,\"bucketTurns\":true", "$.check.readings[1].u")]
    [InlineData("\"rampDeg\":20", "$.engine.layout.rampDeg")]
    [InlineData("\"redo\":60", "$.costs.redo")]
    [InlineData("\"intake cam\":25", "$.costs.access['intake cam']")]
    [InlineData("\"keepFloor\":0.5", "$.settings.keepFloor")]
    public void Read_MemberThatStandsThereTwice_IsRefused(string member, string path)
    {
        string first = member.Split(",\"")[0];
        Reading.Refuses(Sample.Shims().TextWith(member, $"{first},{member}"), path, "stands there twice");
    }

    [Fact]
    public void Read_MemberTwiceWithAnEscapeInOneName_IsRefused() => Reading.Refuses(
        Sample.Shims().TextWith("\"redo\":60", "\"redo\":60,\"r\\u0065do\":61"), "$.costs.redo", "stands there twice");

    [Fact]
    public void Read_WholeSectionTwice_IsRefused() => Reading.Refuses(
        Sample.Shims().TextWith("\"stock\":", "\"stock\":{},\"stock\":"), "$.stock", "stands there twice");
}
