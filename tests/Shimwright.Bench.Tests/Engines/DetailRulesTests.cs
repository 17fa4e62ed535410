using Shimwright.Bench.Engines;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Tests.Engines;

public class DetailRulesTests
{
    /// <summary>No plan could name a shim of such a range.</summary>
    [Theory]
    [InlineData(2.5, 2.5)]
    [InlineData(3.5, 1.2)]
    public void ProblemsOf_ThickestNotAboveTheThinnest_AreNamed(double thinnest, double thickest)
    {
        JobProblem problem = Assert.Single(DetailRules.ProblemsOf(new CardDetails { ThinnestShim = thinnest, ThickestShim = thickest }, []));
        Assert.Equal("thickestShim", problem.Path);
    }

    [Theory]
    [InlineData(1.2, 3.5)]
    [InlineData(2.5, null)]
    [InlineData(null, 2.5)]
    public void ProblemsOf_ThickestAboveTheThinnest_AreNone(double? thinnest, double? thickest) =>
        Assert.Empty(DetailRules.ProblemsOf(new CardDetails { ThinnestShim = thinnest, ThickestShim = thickest }, []));
}
