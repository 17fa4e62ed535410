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
        var costs = new PlanCosts(minutes, new Dictionary<string, double> { ["cover"] = minutes }, minutes, minutes);
        Assert.Equal(
            [minutes, minutes, minutes, minutes],
            [costs.Redo, costs.AccessOf("cover"), costs.Swap, costs.MinutesPerCurrency]);
    }

    [Theory]
    [InlineData(-0.001)]
    [InlineData(100_000.001)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Costs_BeyondTheirLimits_AreRefusedByName(double minutes)
    {
        Refuses("redo", () => new PlanCosts(redo: minutes));
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
    public void SecondRound_AnyPlan_CountsTheRedoAndEveryGroupOnce()
    {
        Engine engine = Made.Engine(Made.Valve("I1", access: "a"), Made.Valve("I2", access: "a"), Made.Valve("E1", access: "b"));
        var costs = new PlanCosts(redo: 50, access: new Dictionary<string, double> { ["a"] = 20, ["b"] = 5, ["elsewhere"] = 900 });
        EngineCheck check = new(engine, Enumerable.Repeat(ValveReadings.None, 3));
        Assert.Equal(75, new PlanRequest(check, [.. Enumerable.Repeat(Made.Marked(2.5), 3)], Stock.Nothing, costs).SecondRound);
    }

    private static void Refuses(string name, Func<object> make) =>
        Assert.Equal(name, Assert.Throws<ArgumentOutOfRangeException>(make).ParamName);
}
