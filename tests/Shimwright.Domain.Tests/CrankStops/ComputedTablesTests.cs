using Shimwright.Domain.CrankStops;
using Xunit;

namespace Shimwright.Domain.Tests.CrankStops;

/// <summary>Tables for layouts of which no published one is at hand: computed, not published, and kept so that they do not move.</summary>
public class ComputedTablesTests
{
    // In-line five, 144 degrees apart; flat six, 120; in-line four in its other order, 180; in-line three, 240. A heel reaches from -130 to 350 about the cylinder's own compression for
    // an intake valve, from -350 to 130 for an exhaust: each slack is the way to its nearer end.
    [Theory]
    [InlineData(
        new[] { 1, 2, 4, 5, 3 },
        "0 after 0: I1 130, E1 130, E2 206, I5 62, I3 206", "288 after 288: I2 206, I4 130, E4 130, E5 206, E3 62")]
    [InlineData(
        new[] { 1, 6, 2, 4, 3, 5 },
        "0 after 0: I1 130, E1 130, E6 230, E2 110, I3 110, I5 230", "360 after 360: I6 110, I2 230, I4 130, E4 130, E3 230, E5 110")]
    [InlineData(
        new[] { 1, 2, 4, 3 },
        "0 after 0: I1 130, E1 130, E2 170, I3 170", "360 after 360: I2 170, I4 130, E4 130, E3 170")]
    [InlineData(
        new[] { 1, 3, 2 },
        "0 after 0: I1 130, E1 130, I2 110", "240 after 240: I3 130, E3 130, E2 110")]
    public void For_LayoutWithoutAPublishedTable_IsAsItWasComputed(int[] order, string first, string second)
    {
        CrankLayout layout = MadeLayout.Of(order, ramp: 0);
        Assert.Equal([first, second], StopPlan.For(layout, anywhere: false).Words(layout));
    }
}
