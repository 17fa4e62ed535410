using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Jobs;
using Shimwright.Pages.Jobs.Readings;

namespace Shimwright.Pages.Tests.Jobs.Readings;

public class ReadingFormsTests
{
    private static readonly LengthStyle Mm = LengthStyle.Millimetres;

    [Fact]
    public void Read_AChip_IsThatBlade()
    {
        SentFacts sent = new TapForm { Valve = "E1", Blade = "0.15", Feel = "light" }.Read(SheetPart.Check, Mm);
        Assert.Equal([new BladeTried(SheetPart.Check, "E1", 0.15, 1, "light")], sent.Facts);
    }

    [Theory]
    [InlineData("0,33", "3", 0.33, 3)]
    [InlineData("13 thou", "", 0.3302, 1)]
    [InlineData(" .28 mm ", "2", 0.28, 2)]
    public void Read_ATypedThickness_CountsInsteadOfTheChip(string thickness, string leaves, double blade, int count)
    {
        SentFacts sent = new TapForm { Valve = "E1", Blade = "0.15", Thickness = thickness, Leaves = leaves, Feel = "firm" }.Read(SheetPart.Recheck, Mm);
        Assert.Equal([new BladeTried(SheetPart.Recheck, "E1", blade, count, "firm")], sent.Facts);
    }

    [Theory]
    [InlineData(null, null, null)]
    [InlineData("", " ", "")]
    [InlineData("NaN", null, null)]
    [InlineData("1e999", null, null)]
    [InlineData("Infinity", null, null)]
    [InlineData("0.15; drop", null, null)]
    [InlineData("0.15", "NaN", null)]
    [InlineData("0.15", "1e999", null)]
    [InlineData("0.15", "about 0.2", null)]
    [InlineData("0.15", null, "0")]
    [InlineData("0.15", null, "-1")]
    [InlineData("0.15", null, "1.5")]
    [InlineData("0.15", null, "11")]
    [InlineData("0.15", null, "99999999999")]
    [InlineData("0.15", null, "NaN")]
    public void Read_WhatIsNoBlade_IsRefusedAndAddsNothing(string? blade, string? thickness, string? leaves)
    {
        SentFacts sent = new TapForm { Valve = "E1", Blade = blade, Thickness = thickness, Leaves = leaves, Feel = "light" }.Read(SheetPart.Check, Mm);
        Assert.Empty(sent.Facts);
        Assert.NotEmpty(sent.Problems);
        Assert.All(sent.Problems, p => Assert.False(string.IsNullOrWhiteSpace(p.Found) || string.IsNullOrWhiteSpace(p.Allowed)));
    }

    [Fact]
    public void Read_AValue_HasItsUncertainty()
    {
        SentFacts sent = new ValueForm { Valve = "E1", Value = "0.21", U = "0.010" }.Read(SheetPart.Check, Mm);
        Assert.Equal([new ClearanceRead(SheetPart.Check, "E1", 0.21, 0.01)], sent.Facts);
    }

    [Theory]
    [InlineData("", "0.01")]
    [InlineData("0.2", "")]
    [InlineData("NaN", "1e999")]
    public void Read_WhatIsNoValue_IsRefusedAndAddsNothing(string value, string u)
    {
        SentFacts sent = new ValueForm { Valve = "E1", Value = value, U = u }.Read(SheetPart.Check, Mm);
        Assert.Empty(sent.Facts);
        Assert.NotEmpty(sent.Problems);
    }

    [Theory]
    [InlineData("yes", true)]
    [InlineData("no", false)]
    public void Read_ABucket_TurnsOrNot(string turns, bool does) =>
        Assert.Equal([new BucketTurned(SheetPart.Check, "I1", does)], new TurnForm { Valve = "I1", Turns = turns }.Read(SheetPart.Check).Facts);

    [Theory]
    [InlineData(null)]
    [InlineData("perhaps")]
    public void Read_ABucketThatNobodyTapped_IsRefused(string? turns) =>
        Assert.Equal("nothing was chosen", new TurnForm { Valve = "I1", Turns = turns }.Read(SheetPart.Check).Problems.Single().Found);

    [Fact]
    public void Read_Conditions_AtTheCheckAndAtTheRecheck()
    {
        var form = new ConditionsInput { Clock = "118.5", Temperature = "68 °F" };
        Assert.Equal([new CheckStated(118.5, 20)], form.Read(SheetPart.Check, "h").Facts);
        Assert.Equal([new RecheckStated(20)], form.Read(SheetPart.Recheck, "h").Facts);
    }

    [Theory]
    [InlineData("", "20")]
    [InlineData("118", "warm")]
    [InlineData("118 km", "20")]
    public void Read_WhatAreNoConditions_IsRefused(string clock, string temperature) =>
        Assert.NotEmpty(new ConditionsInput { Clock = clock, Temperature = temperature }.Read(SheetPart.Check, "h").Problems);

    [Fact]
    public void Read_NoCause_IsRefused() => Assert.Equal("nothing was chosen", new SuspectedSent().Read().Problems.Single().Found);
}
