using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Shims;

public class MarkSpreadTests
{
    [Fact]
    public void Of_FewerThanFive_SaysNothing()
    {
        Assert.Null(MarkSpread.Of([]));
        Assert.Null(MarkSpread.Of([0.001, 0.002, 0.003, 0.004]));
        Assert.NotNull(MarkSpread.Of([0.001, 0.002, 0.003, 0.004, 0.005]));
        Assert.Throws<ArgumentOutOfRangeException>(() => MarkSpread.Of([0, 0, 0, 0, double.NaN]));
    }

    /// <summary>
    /// Ten differences: t(0.975; 9) = 2.262 and χ²(0.975; 9) = 19.023, χ²(0.025; 9) = 2.700 are the critical values in the tables of the
    /// NIST/SEMATECH e-Handbook of Statistical Methods, sections 1.3.6.7.2 and 1.3.6.7.4 (read from memory).
    /// </summary>
    [Fact]
    public void Of_TenShims_HasTheIntervalsOfThePublishedTables()
    {
        double[] differences = [-0.012, -0.009, -0.007, -0.004, -0.002, 0.001, 0.003, 0.004, 0.006, 0.010];
        MarkSpread spread = MarkSpread.Of(differences)!;
        double mean = differences.Average();
        double sd = Math.Sqrt(differences.Sum(d => (d - mean) * (d - mean)) / 9);
        Assert.Equal((mean, sd), (spread.Mean, spread.StandardDeviation));
        Assert.Equal(mean - (2.262 * sd / Math.Sqrt(10)), spread.MeanInterval.Low, 2e-6);
        Assert.Equal(mean + (2.262 * sd / Math.Sqrt(10)), spread.MeanInterval.High, 2e-6);
        Assert.Equal(sd * Math.Sqrt(9 / 19.023), spread.DeviationInterval.Low, 1e-6);
        Assert.Equal(sd * Math.Sqrt(9 / 2.700), spread.DeviationInterval.High, 2e-6);
    }

    /// <summary>Many lots of eight shims whose marks are as the program takes them: each interval holds the truth nineteen times out of twenty.</summary>
    [Fact]
    public void Of_ManyLots_CoverTheTruthAsOftenAsTheySay()
    {
        var chance = new SeededChance(31);
        double truth = MarkSpread.Expected(Instrument.Marked, Instrument.Micrometer);
        Assert.Equal(Math.Sqrt((0.008 * 0.008) + (0.002 * 0.002)), truth, 1e-12);
        const int lots = 4000;
        int means = 0, deviations = 0;
        for (int lot = 0; lot < lots; lot++)
        {
            MarkSpread spread = MarkSpread.Of([.. Enumerable.Range(0, 8).Select(_ => chance.Normal(-0.003, truth))])!;
            means += spread.MeanInterval.Low <= -0.003 && -0.003 <= spread.MeanInterval.High ? 1 : 0;
            deviations += spread.DeviationInterval.Low <= truth && truth <= spread.DeviationInterval.High ? 1 : 0;
        }

        double slack = 3.5 * Math.Sqrt(0.95 * 0.05 / lots);
        Assert.Equal(0.95, means / (double)lots, slack);
        Assert.Equal(0.95, deviations / (double)lots, slack);
    }
}
