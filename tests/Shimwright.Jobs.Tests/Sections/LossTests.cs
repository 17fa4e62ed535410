using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Sections;

public class LossTests
{
    private const string Loss = "$.check.loss";

    [Fact]
    public void Read_HeadWorkOnOneSide_LeavesTheOtherToWear()
    {
        LossPrior loss = Reading.Takes(Sample.Shims().Set(Loss, """{"cause": "head work", "sides": ["exhaust"], "own": 0.03}""")).Check.Loss;
        Assert.Equal((false, true, 0.04, 0.03), (loss.IsReworked(ValveSide.Intake), loss.IsReworked(ValveSide.Exhaust), loss.Shared, loss.Own));
    }

    [Fact]
    public void Read_HeadWorkWithoutSides_IsBoth()
    {
        LossPrior loss = Reading.Takes(Sample.Shims().Set(Loss, """{"cause": "head work"}""")).Check.Loss;
        Assert.True(loss.IsReworked(ValveSide.Intake) && loss.IsReworked(ValveSide.Exhaust));
    }

    [Theory]
    [InlineData("""{"cause": "dust storm"}""", "$.check.loss.cause", "allowed is \"head work\"")]
    [InlineData("""{"cause": "head work", "sides": ["inlet"]}""", "$.check.loss.sides[0]", "\"intake\", \"exhaust\"")]
    [InlineData("""{"sides": ["intake"]}""", "$.check.loss.sides", "they go with")]
    [InlineData("""{"cause": "head work", "sides": []}""", "$.check.loss.sides", "1 to 2")]
    public void Read_WrongHeadWork_IsRefusedAtItsPath(string loss, string path, string words) =>
        Reading.Notes(Sample.Shims().Set(Loss, loss), path, words);
}
