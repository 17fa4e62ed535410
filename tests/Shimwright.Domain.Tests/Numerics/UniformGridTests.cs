using Shimwright.Domain.Numerics;
using Xunit;

namespace Shimwright.Domain.Tests.Numerics;

public class UniformGridTests
{
    [Fact]
    public void At_Position_IsItsInverse()
    {
        var grid = new UniformGrid(-0.25, 0.125, 9);
        Assert.Equal(0.75, grid.End);
        Assert.Equal([-0.25, -0.125, 0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75], grid.Points());
        Assert.All(Enumerable.Range(0, 9), i => Assert.Equal(i, grid.Position(grid.At(i)), 1e-12));
    }

    [Theory]
    [InlineData(0, 1, 0.3)]
    [InlineData(-1.5, 2.25, 0.25)]
    [InlineData(0, 0.01, 1)]
    [InlineData(3, 3, 0.1)]
    public void Spanning_AnyRange_ReachesItWithAtLeastFourPoints(double low, double high, double step)
    {
        UniformGrid grid = UniformGrid.Spanning(low, high, step);
        Assert.Equal(low, grid.Start);
        Assert.Equal(step, grid.Step);
        Assert.True(grid.End >= high - 1e-12);
        Assert.True(grid.Count >= 4);
        Assert.True(grid.Count == 4 || grid.End < high + step);
    }
}
