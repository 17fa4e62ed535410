using Shimwright.Domain.Numerics;
using Xunit;

namespace Shimwright.Domain.Tests.Numerics;

public class CubicRuleTests
{
    private static readonly UniformGrid Grid = new(-0.3, 0.1, 12);

    [Theory]
    [InlineData(-0.3, 0.8)]
    [InlineData(-0.27, 0.761)]
    [InlineData(0.1, 0.4)]
    [InlineData(0.13, 0.14)]
    [InlineData(-0.3, -0.29)]
    [InlineData(0.75, 0.8)]
    [InlineData(0.1999, 0.2001)]
    public void Weights_AnyInterval_AreExactForCubics(double low, double high)
    {
        double[] weights = CubicRule.Weights(Grid, low, high);
        for (int power = 0; power <= 3; power++)
        {
            double exact = (Math.Pow(high, power + 1) - Math.Pow(low, power + 1)) / (power + 1);
            double found = Grid.Points().Zip(weights, (x, w) => w * Math.Pow(x, power)).Sum();
            Assert.Equal(exact, found, 1e-14);
        }
    }

    [Fact]
    public void Weights_FourPoints_AreTheThreeEighthsRule() =>
        Assert.Equal([3 / 8.0, 9 / 8.0, 9 / 8.0, 3 / 8.0], CubicRule.Weights(new UniformGrid(0, 1, 4), 0, 3).Select(w => Math.Round(w, 12)));

    [Fact]
    public void Weights_EndsBeyondTheGrid_StopAtTheGrid()
    {
        double[] all = CubicRule.Weights(Grid, -0.3, 0.8);
        double[] beyond = CubicRule.Weights(Grid, double.NegativeInfinity, double.PositiveInfinity);
        Assert.All(all.Zip(beyond), w => Assert.Equal(w.First, w.Second, 1e-15));
    }

    [Theory]
    [InlineData(0.5, 0.5)]
    [InlineData(0.5, 0.2)]
    [InlineData(2, 3)]
    [InlineData(-3, -2)]
    [InlineData(double.NaN, 0.5)]
    public void Weights_EmptyInterval_AreNothing(double low, double high) =>
        Assert.All(CubicRule.Weights(Grid, low, high), w => Assert.Equal(0, w));

    [Fact]
    public void Weights_FinerGrid_ErrAsTheFourthPowerOfTheStep()
    {
        // Ends between the points, where a plain sum would err with the step itself.
        double[] errors = [.. new[] { 20, 40, 80, 160 }.Select(cells =>
        {
            var grid = new UniformGrid(0, 2.0 / cells, cells + 1);
            double found = CubicRule.Weights(grid, 0.1234, 1.7654).Zip(grid.Points(), (w, x) => w * Math.Exp(-x)).Sum();
            return Math.Abs(found - (Math.Exp(-0.1234) - Math.Exp(-1.7654)));
        })];
        for (int i = 1; i < errors.Length; i++)
        {
            Assert.InRange(errors[i - 1] / errors[i], 8, 32);
        }
    }

    [Fact]
    public void Cell_PartsOfACell_AddUpToItsWeights()
    {
        double[] values = [.. Grid.Points().Select(Math.Sin)];
        for (int cell = 0; cell < Grid.Count - 1; cell++)
        {
            double parts = CubicRule.Cell(values, cell, 0, 0.37, Grid.Step) + CubicRule.Cell(values, cell, 0.37, 1, Grid.Step);
            double whole = CubicRule.Weights(Grid, Grid.At(cell), Grid.At(cell + 1)).Zip(values, (w, f) => w * f).Sum();
            Assert.Equal(whole, parts, 1e-14);
        }
    }
}
