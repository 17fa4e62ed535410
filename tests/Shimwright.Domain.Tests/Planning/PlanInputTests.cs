using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

public class PlanInputTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(100_000)]
    public void Costs_AtTheirLimits_AreTaken(double minutes)
    {
        var costs = new PlanCosts(minutes, new Dictionary<string, double> { ["cover"] = minutes }, minutes, minutes, minutes);
        Assert.Equal(
            [minutes, minutes, minutes, minutes, minutes],
            [costs.Redo, costs.AccessOf("cover"), costs.Swap, costs.MinutesPerCurrency, costs.Disturb]);
    }

    [Theory]
    [InlineData(-0.001)]
    [InlineData(100_000.001)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Costs_BeyondTheirLimits_AreRefusedByName(double minutes)
    {
        Refuses("redo", () => new PlanCosts(redo: minutes));
        Refuses("disturb", () => new PlanCosts(disturb: minutes));
        Refuses("swap", () => new PlanCosts(swap: minutes));
        Refuses("minutesPerCurrency", () => new PlanCosts(minutesPerCurrency: minutes));
        Refuses("access", () => new PlanCosts(access: new Dictionary<string, double> { ["cover"] = minutes }));
    }

    [Fact]
    public void Costs_GroupThatIsNotNamed_CostsNothing() => Assert.Equal(0, new PlanCosts().AccessOf("cover"));

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Rules_FloorsAtTheirLimits_AreTaken(double floor)
    {
        var rules = new PlanRules(floor, floor);
        Assert.Equal((floor, floor), (rules.KeepFloor, rules.FitFloor));
    }

    [Theory]
    [InlineData(-0.001)]
    [InlineData(1.001)]
    [InlineData(double.NaN)]
    public void Rules_BeyondTheirLimits_AreRefusedByName(double value)
    {
        Refuses("keepFloor", () => new PlanRules(keepFloor: value));
        Refuses("fitFloor", () => new PlanRules(fitFloor: value));
    }

    [Fact]
    public void Request_ThicknessesThatDoNotMatchTheValves_AreRefused()
    {
        EngineCheck check = Made.Check(ValveReadings.None, ValveReadings.None);
        Assert.Throws<ArgumentOutOfRangeException>(() => new PlanRequest(check, [Made.Marked(2.5)]));
        EngineCheck screws = new(Made.Engine(new Valvetrain(Adjuster.Screw, 1, 0.75), Made.Valve()), [ValveReadings.None]);
        Assert.Throws<ArgumentOutOfRangeException>(() => new PlanRequest(screws, [Made.Marked(2.5)]));
        Assert.Empty(new PlanRequest(screws, []).Fitted);
    }

    [Fact]
    public void Again_SizesForSale_IsTheSwapAndTheCheapestOfThem()
    {
        var costs = new PlanCosts(swap: 4, minutesPerCurrency: 2);
        var shop = new Stock([], [new(Made.Marked(2.4), 9), new(Made.Marked(2.5), 7), new(Made.Marked(2.6), 8)]);
        Assert.Equal(4 + (2 * 7), new PlanRequest(Made.Check(ValveReadings.None), [Made.Marked(2.5)], shop, costs).Again);
    }

    [Fact]
    public void Again_NothingForSale_IsNothingButForAScrew()
    {
        var costs = new PlanCosts(swap: 4);
        Assert.Equal(0, new PlanRequest(Made.Check(ValveReadings.None), [Made.Marked(2.5)], new Stock([new(Made.Marked(2.4), 3)], []), costs).Again);
        EngineCheck screws = new(Made.Engine(new Valvetrain(Adjuster.Screw, 1, 0.75), Made.Valve()), [ValveReadings.None]);
        Assert.Equal(4, new PlanRequest(screws, [], costs: costs).Again);
    }

    private static void Refuses(string name, Func<object> make) =>
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(make).ParamName);
}
