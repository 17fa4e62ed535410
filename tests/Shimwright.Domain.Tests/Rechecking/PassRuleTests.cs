using Shimwright.Domain.Rechecking;
using Xunit;

namespace Shimwright.Domain.Tests.Rechecking;

public class PassRuleTests
{
    /// <summary>The chance of being in band, that of the reading alone, whether it was changed, whether a blade entered, and what comes of it.</summary>
    [Theory]
    [InlineData(0.8, 0.5, true, true, PassResult.Passes)]
    [InlineData(0.7999, 0.9, true, true, PassResult.TooDoubtful)]
    [InlineData(0.7999, 0.9, false, true, PassResult.TooDoubtful)]
    [InlineData(0.99, 0.4999, true, true, PassResult.FeltTooLittle)]
    [InlineData(0.99, 0.4999, false, false, PassResult.FeltTooLittle)]
    [InlineData(0.99, 0.4999, false, true, PassResult.Passes)]
    [InlineData(0.99, 0.5, false, false, PassResult.Passes)]
    [InlineData(0.99, null, true, false, PassResult.NotFelt)]
    [InlineData(0.10, null, true, false, PassResult.NotFelt)]
    [InlineData(0.99, null, false, false, PassResult.FeltTooLittle)]
    public void Judge_EveryCase_SaysWhichRuleFailed(double inBand, double? alone, bool wasChanged, bool bladeEntered, PassResult expected) =>
        Assert.Equal(expected, PassRule.Usual.Judge(inBand, alone, wasChanged, bladeEntered));

    /// <summary>A valve that was in band at the check and is felt far out at the re-check: that nothing was done to it is no reason to pass it.</summary>
    [Theory]
    [InlineData(0.4999, true, PassResult.FeltTooLittle)]
    [InlineData(0.5, true, PassResult.Passes)]
    [InlineData(0.4999, false, PassResult.Passes)]
    public void Judge_UnchangedButFarFromWhatWasExpected_AsksTheReadingAlone(double alone, bool isSurprising, PassResult expected) =>
        Assert.Equal(expected, PassRule.Usual.Judge(0.99, alone, wasChanged: false, bladeEntered: true, isSurprising));

    [Fact]
    public void Judge_FloorOfOnesOwn_TurnsThere()
    {
        var rule = new PassRule(0.6);
        Assert.Equal(PassResult.Passes, rule.Judge(0.6, 0.9, true, true));
        Assert.Equal(PassResult.TooDoubtful, rule.Judge(0.5999, 0.9, true, true));
    }

    [Fact]
    public void PassRule_FloorThatIsNoChance_IsRefused()
    {
        Refuses.NotANumber("floor", x => new PassRule(x));
        Assert.Throws<ArgumentOutOfRangeException>("floor", () => new PassRule(-0.001));
        Assert.Throws<ArgumentOutOfRangeException>("floor", () => new PassRule(1.001));
    }
}
