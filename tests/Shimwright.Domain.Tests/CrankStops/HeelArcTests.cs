using Shimwright.Domain.CrankStops;
using Xunit;

namespace Shimwright.Domain.Tests.CrankStops;

public class HeelArcTests
{
    [Fact]
    public void Between_OneInterval_IsTheRestOfTheCycle() =>
        Assert.Equal([new HeelArc(590, 480)], HeelArc.Between([new OffHeel(350, 240)]));

    [Fact]
    public void Between_IntervalOverTheDatum_IsTheRestOfTheCycle() =>
        Assert.Equal([new HeelArc(40, 660)], HeelArc.Between([new OffHeel(-20, 60)]));

    [Fact]
    public void Between_TwoIntervals_AreTwoArcs() =>
        Assert.Equal([new HeelArc(20, 110), new HeelArc(370, 330)], HeelArc.Between([new OffHeel(130, 240), new OffHeel(-20, 40)]));

    [Fact]
    public void Between_OverlappingAndNestedIntervals_CountOnce() =>
        Assert.Equal([new HeelArc(300, 520)], HeelArc.Between([new OffHeel(100, 200), new OffHeel(150, 50), new OffHeel(250, 50), new OffHeel(100, 10)]));

    [Fact]
    public void Between_IntervalsThatTouch_LeaveTheirPointWithNoSlack()
    {
        IReadOnlyList<HeelArc> arcs = HeelArc.Between([new OffHeel(100, 100), new OffHeel(200, 100)]);
        Assert.Equal([new HeelArc(300, 520), new HeelArc(200, 0)], arcs);
        Assert.Equal(0, arcs[1].SlackAt(200));
    }

    [Theory]
    [InlineData(100, 720)]
    [InlineData(100, 800)]
    public void Between_IntervalOfAWholeCycle_LeavesNothing(double from, double length) =>
        Assert.Empty(HeelArc.Between([new OffHeel(from, length), new OffHeel(0, 1)]));

    [Fact]
    public void Between_IntervalsThatFillTheCycle_LeaveNothing() =>
        Assert.Empty(HeelArc.Between([new OffHeel(0, 400), new OffHeel(390, 340)]));

    [Theory]
    [InlineData(690, 0)]
    [InlineData(700, 10)]
    [InlineData(0, 30)]
    [InlineData(20, 50)]
    [InlineData(40, 30)]
    [InlineData(70, 0)]
    [InlineData(1510, 0)]
    public void SlackAt_InsideOrAtAnEnd_IsTheWayToTheNearerEnd(double angle, double slack) =>
        Assert.Equal(slack, new HeelArc(690, 100).SlackAt(angle), 1e-9);

    [Theory]
    [InlineData(689.99)]
    [InlineData(70.01)]
    [InlineData(360)]
    public void SlackAt_Outside_IsNegative(double angle) => Assert.True(new HeelArc(690, 100).SlackAt(angle) < -0.005);

    [Fact]
    public void SlackAt_RoundingBeforeTheBeginning_IsTheBeginning() =>
        Assert.Equal(0, new HeelArc(240, 100).SlackAt(240 - 1e-10));
}
