using Shimwright.Domain.Numerics;
using Xunit;

namespace Shimwright.Domain.Tests.Numerics;

public class SquaresTests
{
    [Fact]
    public void Combine_IndependentParts_IsTheRootOfTheSumOfSquares()
    {
        Assert.Equal(0, Squares.Combine());
        Assert.Equal(7, Squares.Combine(7));
        Assert.Equal(13, Squares.Combine(3, 4, 12));
        Assert.Equal(13, Squares.Combine(-12, 4, -3));
    }

    [Fact]
    public void Of_Negative_IsItsSquare() => Assert.Equal(6.25, Squares.Of(-2.5));
}
