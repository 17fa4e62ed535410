using Shimwright.Domain.Numerics;
using Xunit;

namespace Shimwright.Domain.Tests.Numerics;

public class SquaresTests
{
    [Fact]
    public void Combine_IndependentParts_IsTheRootOfTheSumOfSquares()
    {
        Assert.Equal(0, Squares.CombinedStandardUncertainty());
        Assert.Equal(7, Squares.CombinedStandardUncertainty(7));
        Assert.Equal(13, Squares.CombinedStandardUncertainty(3, 4, 12));
        Assert.Equal(13, Squares.CombinedStandardUncertainty(-12, 4, -3));
    }

    [Fact]
    public void Of_Negative_IsItsSquare() => Assert.Equal(6.25, Squares.Of(-2.5));
}
