using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

public class ReadingLimitsTests
{
    [Theory]
    [InlineData(1e-6, 1)]
    [InlineData(0.15, 3)]
    [InlineData(2, 10)]
    public void Trial_WithinItsLimits_IsKept(double blade, int leaves)
    {
        var trial = new BladeTrial(blade, Feel.Firm, leaves);
        Assert.Equal((blade, Feel.Firm, leaves), (trial.Blade, trial.Feel, trial.Leaves));
    }

    [Fact]
    public void Trial_BeyondItsLimits_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>("blade", () => new BladeTrial(0, Feel.Light));
        Assert.Throws<ArgumentOutOfRangeException>("blade", () => new BladeTrial(-0.1, Feel.Light));
        Assert.Throws<ArgumentOutOfRangeException>("blade", () => new BladeTrial(2.0001, Feel.Light));
        Refuses.NotANumber("blade", x => new BladeTrial(x, Feel.Light));
        Refuses.OutOfRange("leaves", 0, "1 to 10", () => new BladeTrial(0.1, Feel.Light, 0));
        Refuses.OutOfRange("leaves", 11, "1 to 10", () => new BladeTrial(0.1, Feel.Light, 11));
        Assert.Throws<ArgumentOutOfRangeException>("feel", () => new BladeTrial(0.1, (Feel)4));
    }

    [Theory]
    [InlineData(-0.3, 0.001)]
    [InlineData(0.15, 0.2)]
    public void Value_WithinItsLimits_IsKept(double millimetres, double uncertainty)
    {
        var value = new DirectValue(millimetres, uncertainty);
        Assert.Equal((millimetres, uncertainty), (value.Millimetres, value.Uncertainty));
    }

    [Fact]
    public void Value_BeyondItsLimits_IsRefused()
    {
        Refuses.OutOfRange("uncertainty", 0.00099, "0.001 to 0.2", () => new DirectValue(0.1, 0.00099));
        Refuses.OutOfRange("uncertainty", 0.2001, "0.001 to 0.2", () => new DirectValue(0.1, 0.2001));
        Refuses.NotANumber("uncertainty", x => new DirectValue(0.1, x));
        Refuses.NotANumber("millimetres", x => new DirectValue(x));
        Assert.Equal(0.010, new DirectValue(0.1).Uncertainty);
    }

    [Fact]
    public void Readings_ListsChangedAfterwards_StayAsTheyWere()
    {
        List<DirectValue> values = [new(0.1)];
        var readings = new ValveReadings(values: values);
        values.Clear();
        Assert.Single(readings.Values);
        Assert.False(readings.IsEmpty);
        Assert.True(ValveReadings.None.IsEmpty);
        Assert.False(new ValveReadings(bucketTurns: [false]).IsEmpty);
        Assert.False(Made.Felt((0.1, Feel.No)).IsEmpty);
    }

    [Fact]
    public void With_MoreReadings_FollowTheFirst()
    {
        ValveReadings both = Made.Felt((0.1, Feel.No)).With(new ValveReadings([new(0.2, Feel.Loose)], [new(0.15)], [true]));
        Assert.Equal([0.1, 0.2], both.Trials.Select(t => t.Blade));
        Assert.Single(both.Values);
        Assert.Equal([true], both.BucketTurns);
    }

    [Fact]
    public void CombinedValue_SeveralValues_IsTheirWeightedMean()
    {
        Assert.Null(ValveReadings.None.CombinedValue());
        (double millimetres, double uncertainty) =
            new ValveReadings(values: [new(0.12, 0.01), new(0.135, 0.02)]).CombinedValue()!.Value;
        Assert.Equal(0.123, millimetres, 1e-12);
        Assert.Equal(0.01 * Math.Sqrt(0.8), uncertainty, 1e-12);
    }

    [Fact]
    public void Check_ReadingsThatDoNotMatchTheValves_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>("readings", () => new EngineCheck(Made.Engine(Made.Valve()), []));
        Assert.Throws<ArgumentOutOfRangeException>(
            "readings", () => new EngineCheck(Made.Engine(Made.Valve()), [ValveReadings.None, ValveReadings.None]));
    }

    [Fact]
    public void Check_NothingElseSaid_IsAColdEngineOrdinarilyWorn()
    {
        EngineCheck check = Made.Check(ValveReadings.None);
        Assert.Equal(ThermalShift.Reference, check.Temperature);
        Assert.Same(LossPrior.Ordinary, check.Loss);
        Assert.Same(FeelProfile.Default, check.Feel);
    }
}
