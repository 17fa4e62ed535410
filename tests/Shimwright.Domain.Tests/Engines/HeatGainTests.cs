using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.Engines;

public class HeatGainTests
{
    [Fact]
    public void Of_ASide_IsItsOwn()
    {
        var heat = new HeatGain(0.0004, -0.0002);
        Assert.Equal((0.0004, -0.0002), (heat.Of(ValveSide.Intake), heat.Of(ValveSide.Exhaust)));
        Assert.False(heat.IsEven);
        Assert.False(heat.IsNone);
        Assert.True(new HeatGain(0, 0).IsNone);
        Assert.False(new HeatGain(0, 0.0001).IsNone);
        Refuses.NotANumber("intake", x => new HeatGain(x, 0));
        Refuses.NotANumber("exhaust", x => new HeatGain(0, x));
    }

    // By hand: 100 mm of aluminium at 22e-6 grow by 0.0022 mm a degree, of a valve at 12e-6 by 0.0012: the gap gains 0.001.
    [Fact]
    public void Between_HeadThatGrowsMore_GainsClearance()
    {
        Assert.Equal(0.001, HeatGain.Between(100, 22e-6, 12e-6), 1e-15);
        Assert.Equal(-0.0005, HeatGain.Between(50, 11e-6, 21e-6), 1e-15);
        Refuses.NotANumber("height", x => HeatGain.Between(x, 0, 0));
        Refuses.NotANumber("head", x => HeatGain.Between(1, x, 0));
        Refuses.NotANumber("valve", x => HeatGain.Between(1, 0, x));
    }

    [Fact]
    public void ClearancePerDegreeOf_TwoSides_IsThatOfTheSide()
    {
        var engine = new Engine("Loaner", Made.Bucket, [Made.Valve()], new HeatGain(0.0004, -0.0002));
        Assert.Equal(0.0004, engine.ClearancePerDegreeOf(ValveSide.Intake));
        Assert.Equal(-0.0002, engine.ClearancePerDegreeOf(ValveSide.Exhaust));
        Assert.Null(Made.Engine(Made.Valve()).ClearancePerDegreeOf(ValveSide.Exhaust));
        Assert.Equal(0.001, new Engine("Loaner", Made.Bucket, [Made.Valve()], 0.001).ClearancePerDegreeOf(ValveSide.Exhaust));
    }

    [Fact]
    public void Sense_OfAnEngine_IsOpeningUnlessSaid()
    {
        Assert.Equal(GapSense.Opening, Made.Engine(Made.Valve()).Sense);
        Assert.Equal(GapSense.Closing, new Engine("Loaner", Made.Bucket, [Made.Valve()], null, GapSense.Closing).Sense);
        Assert.Throws<ArgumentOutOfRangeException>("sense", () => new Engine("Loaner", Made.Bucket, [Made.Valve()], null, (GapSense)7));
    }
}
