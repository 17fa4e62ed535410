using Xunit;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>What was claimed against what happened, bin by bin of the claimed chance.</summary>
internal sealed class Tally(string of, params double[] limits)
{
    /// <summary>Beyond this many standard deviations a claim counts as false: 1 in 2,000 for one that is true.</summary>
    private const double Sigmas = 3.5;

    private readonly (int Count, double Claimed, double Variance, int Happened)[] _bins =
        new (int, double, double, int)[limits.Length + 1];

    public int Count => _bins.Sum(b => b.Count);

    public void Add(double claimed, bool happened)
    {
        int bin = limits.Count(l => claimed >= l);
        (int count, double sum, double variance, int times) = _bins[bin];
        _bins[bin] = (count + 1, sum + claimed, variance + (claimed * (1 - claimed)), times + (happened ? 1 : 0));
    }

    /// <summary>In every bin, and in all together, as many happened as were claimed.</summary>
    public void AssertHolds(ITestOutputHelper output, int fewestInBin)
    {
        (int, double, double, int) total = (Count, _bins.Sum(b => b.Claimed), _bins.Sum(b => b.Variance), _bins.Sum(b => b.Happened));
        foreach ((int count, double claimed, double variance, int happened) in _bins.Length == 1 ? _bins : [.. _bins, total])
        {
            double sigmas = (happened - claimed) / Math.Sqrt(variance);
            output.WriteLine($"{of}: {happened} of {count}, {claimed:0.0} claimed, {sigmas:+0.00;-0.00} sigma");
            Assert.True(count >= fewestInBin, $"{of}: only {count} in a bin");
            Assert.InRange(sigmas, -Sigmas, Sigmas);
        }
    }
}
