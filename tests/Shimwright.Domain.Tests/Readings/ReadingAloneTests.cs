using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

public class ReadingAloneTests
{
    /// <summary>A blade that does not go in says how wide the gap is not. One that does, or a number, says where it is.</summary>
    [Fact]
    public void IsUnbounded_NothingBoundsTheGapFromBelow_IsTrue()
    {
        Assert.True(Of(Made.Felt((0.05, Feel.No))));
        Assert.True(Of(Made.Felt((0.08, Feel.No), (0.05, Feel.No))));
        Assert.False(Of(Made.Felt((0.08, Feel.No), (0.05, Feel.Firm))));
        Assert.False(Of(Made.Value(0.12)));
        Assert.False(Of(new([new BladeTrial(0.05, Feel.No)], [new DirectValue(0.04)])));
        Assert.True(Of(new(bucketTurns: [true])));
    }

    [Fact]
    public void At_NothingRead_IsNull() => Assert.Null(ReadingAlone.At(Made.Check(Made.Value(0.12), ValveReadings.None), 1));

    private static bool Of(ValveReadings readings) => ReadingAlone.At(Made.Check(readings), 0)!.IsUnbounded;
}
