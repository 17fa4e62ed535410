using Shimwright.Domain.Numerics;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Numerics;

[Proof(Formulas.Share, Evidence.Published, "R. G. Newcombe, Statistics in Medicine 17 (1998) 857, table I; from memory.")]
public class BinomialShareTests
{
    /// <summary>R. G. Newcombe, Statistics in Medicine 17 (1998) 857, table I, method 5 (Clopper-Pearson); from memory.</summary>
    [Theory]
    [InlineData(81, 263, 0.2527, 0.3676)]
    [InlineData(15, 148, 0.0578, 0.1617)]
    [InlineData(0, 20, 0, 0.1684)]
    [InlineData(1, 29, 0.0009, 0.1776)]
    public void Interval_PublishedCounts_IsAsPublished(int count, int trials, double low, double high)
    {
        BinomialShare share = new(count, trials);
        Assert.Equal(low, share.Low, 0.0003);
        Assert.Equal(high, share.High, 0.0003);
    }

    /// <summary>The ends are where the tail beyond the count is 2.5 %, by summing the binomial law.</summary>
    [Theory]
    [InlineData(3, 10)]
    [InlineData(17, 40)]
    [InlineData(9, 10)]
    public void Interval_AnyCount_CutsTailsOfTheBinomialLaw(int count, int trials)
    {
        BinomialShare share = new(count, trials);
        Assert.Equal(0.025, Enumerable.Range(count, trials - count + 1).Sum(k => MathNet.Numerics.Distributions.Binomial.PMF(share.Low, trials, k)), 1e-9);
        Assert.Equal(0.025, Enumerable.Range(0, count + 1).Sum(k => MathNet.Numerics.Distributions.Binomial.PMF(share.High, trials, k)), 1e-9);
    }

    [Fact]
    public void Interval_NoneOrAll_EndsAtTheEdge()
    {
        Assert.Equal((0.0, 1.0), (new BinomialShare(0, 5).Low, new BinomialShare(5, 5).High));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BinomialShare(6, 5));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BinomialShare(0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BinomialShare(-1, 5));
    }
}
