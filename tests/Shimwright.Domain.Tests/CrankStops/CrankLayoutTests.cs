using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.CrankStops;

public class CrankLayoutTests
{
    [Fact]
    public void FiresAt_EvenFiring_IsACycleDividedByTheCylinders()
    {
        CrankLayout layout = MadeLayout.Of([1, 5, 3, 6, 2, 4]);
        Assert.Equal([0, 120, 240, 360, 480, 600], layout.FiringOrder.Select(layout.FiresAt));
    }

    [Fact]
    public void FiresAt_NoCylinderOne_CountsFromTheFirstInTheOrder()
    {
        CrankLayout layout = MadeLayout.Of([7, 9, 8]);
        Assert.Equal([0, 240, 480], layout.FiringOrder.Select(layout.FiresAt));
    }

    [Fact]
    public void FiresAt_GivenAngles_LieInTheCycle()
    {
        CrankLayout layout = new([2, 1], [-450, 0], MadeLayout.TwoEach([1, 2]));
        Assert.Equal(270, layout.FiresAt(2));
        Assert.Equal(0, layout.FiresAt(1));
    }

    [Fact]
    public void HeelOf_IsWidenedByTheRampAtBothEnds()
    {
        CrankLayout layout = new([1, 2], [0, 270], MadeLayout.TwoEach([1, 2]), 20);
        Assert.Equal([new HeelArc(610, 440)], layout.HeelOf(layout.Valves[0]));

        // Cylinder 2 opens its exhaust at 270 + 180 - 50 - 20 and closes it at 270 + 360 + 10 + 20.
        TimedValve exhaust = layout.Valves.Single(v => v is { Cylinder: 2, Side: ValveSide.Exhaust });
        Assert.Equal([new HeelArc(660, 440)], layout.HeelOf(exhaust));
    }

    [Fact]
    public void HeelOf_FurtherInterval_IsWidenedToo()
    {
        CrankLayout layout = MadeLayout.Single(5, MadeLayout.Valve(1, ValveSide.Exhaust, null, new OffHeel(600, 30)));
        Assert.Equal([new HeelArc(635, 210), new HeelArc(375, 220)], layout.HeelOf(layout.Valves[0]));
    }

    [Fact]
    public void Constructor_WhatDoesNotFitTogether_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>("firingAngles", () => new CrankLayout([1, 2], [0], []));
        Assert.Throws<ArgumentException>(() => new CrankLayout([1, 1], null, []));
        Refuses.OutOfRange("ramp", -1, "0 to 180", () => new CrankLayout([1], null, [], -1));
        Refuses.OutOfRange("ramp", 181, "0 to 180", () => new CrankLayout([1], null, [], 181));
        Refuses.NotANumber("ramp", ramp => new CrankLayout([1], null, [], ramp));
    }
}
