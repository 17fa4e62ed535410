using MathNet.Numerics.Distributions;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Rechecking;
using Shimwright.Testing;
using Xunit;

namespace Shimwright.Domain.Tests.Rechecking;

public class SeatingEstimateTests
{
    private const int Seed = 20_261_125;

    [Fact]
    public void Of_TooFewFittings_SaysNothing() =>
        Assert.Null(SeatingEstimate.Of([.. Enumerable.Repeat(new FittingMiss(0.01, 0.005), SeatingEstimate.LeastFittings - 1)]));

    [Fact]
    public void Of_MissesNoGreaterThanTheReadings_MayBeNothing()
    {
        SeatingEstimate estimate = SeatingEstimate.Of([.. Enumerable.Range(0, 60).Select(i => new FittingMiss(i % 2 == 0 ? 0.001 : -0.001, 0.005))])!;
        Assert.Equal((0.0, 0.0), (estimate.Seating, estimate.Low));
        Assert.InRange(estimate.High, 0.0005, 0.004);
    }

    /// <summary>Without blunders and with readings that are exact, the likeliest spread is the root mean square.</summary>
    [Fact]
    public void Of_ExactReadings_IsTheRootMeanSquare()
    {
        FittingMiss[] misses = Draw(new Random(Seed), 400, 0.006, 1e-9, 0);
        double rms = Math.Sqrt(misses.Average(m => m.Miss * m.Miss));
        Assert.Equal(rms, SeatingEstimate.Of(misses)!.Seating, 0.0001);
    }

    /// <summary>95 % intervals hold the true value in 95 of 100 simulated benches, blunders or none.</summary>
    [Theory]
    [Long]
    [InlineData(0.004, 0.005, 40, 0.0)]
    [InlineData(0.008, 0.006, 30, 0.02)]
    [InlineData(0.012, 0.004, 100, 0.02)]
    public void Of_SimulatedBenches_IntervalsCover(double seating, double uncertainty, int fittings, double blunders)
    {
        int benches = Effort.Cases(400, 8_000);
        var random = new Random(Seed);
        int covered = 0;
        double sum = 0;
        for (int b = 0; b < benches; b++)
        {
            SeatingEstimate estimate = SeatingEstimate.Of(Draw(random, fittings, seating, uncertainty, blunders))!;
            covered += estimate.Low <= seating && seating <= estimate.High ? 1 : 0;
            sum += estimate.Seating;
        }

        // 3.3 standard deviations either way: one run in a thousand would fall outside by chance.
        double reach = 3.3 * Math.Sqrt(0.95 * 0.05 * benches);
        Assert.InRange(covered, (0.95 * benches) - reach, (0.95 * benches) + reach);
        Assert.InRange(sum / benches, 0.88 * seating, 1.08 * seating);
    }

    /// <summary>Half the 95 % point of chi-squared below the top at both ends, with two blunders in a hundred that land 0.05 further off.</summary>
    [Theory]
    [InlineData(0.004, 0.005, 0.02)]
    [InlineData(0.009, 0.003, 0.1)]
    public void Of_AnyMisses_HasTheIntervalOfTheLikelihoodRatio(double seating, double uncertainty, double blunders)
    {
        FittingMiss[] misses = Draw(new Random(Seed), 80, seating, uncertainty, blunders);
        double LogLikelihood(double s) => misses.Sum(m =>
        {
            double usual = Math.Sqrt((s * s) + (m.Uncertainty * m.Uncertainty));
            return Math.Log((0.98 * Normal.PDF(0, usual, m.Miss)) + (0.02 * Normal.PDF(0, Math.Sqrt((usual * usual) + (0.05 * 0.05)), m.Miss)));
        });
        SeatingEstimate estimate = SeatingEstimate.Of(misses)!;
        double top = LogLikelihood(estimate.Seating);
        Assert.All(Enumerable.Range(0, 500), i => Assert.True(LogLikelihood(i * 0.0001) <= top + 1e-9));
        double drop = ChiSquared.InvCDF(1, 0.95) / 2;
        Assert.Equal(top - drop, LogLikelihood(estimate.Low), 1e-3);
        Assert.Equal(top - drop, LogLikelihood(estimate.High), 1e-3);
    }

    /// <summary>A wrong shim among good ones does not stand for all.</summary>
    [Fact]
    public void Of_OneBlunder_MovesLittle()
    {
        FittingMiss[] misses = Draw(new Random(Seed), 60, 0.004, 0.004, 0);
        double without = SeatingEstimate.Of(misses)!.Seating;
        Assert.Equal(without, SeatingEstimate.Of([.. misses, new FittingMiss(0.05, 0.004)])!.Seating, 0.001);
    }

    /// <summary>An expectation and a reading make a posterior; from expectation and posterior the reading comes back.</summary>
    [Fact]
    public void Of_PosteriorOfANormalReading_IsThatReading()
    {
        const double expected = 0.15, expectedSpread = 0.007, seating = 0.004, read = 0.162, u = 0.005;
        double variance = 1 / ((1 / (expectedSpread * expectedSpread)) + (1 / (u * u)));
        double after = variance * ((expected / (expectedSpread * expectedSpread)) + (read / (u * u)));
        FittingMiss miss = FittingMiss.Of(expected, expectedSpread, after, Math.Sqrt(variance), seating)!.Value;
        Assert.Equal(read - expected, miss.Miss, 1e-12);
        Assert.Equal(Math.Sqrt((u * u) + (expectedSpread * expectedSpread) - (seating * seating)), miss.Uncertainty, 1e-12);
    }

    [Fact]
    public void Of_ReadingThatSaysNothing_IsNoMiss()
    {
        Assert.Null(FittingMiss.Of(0.15, 0.005, 0.15, 0.005, 0.004));
        Assert.Null(FittingMiss.Of(0.15, 0.005, 0.16, 0.006, 0.004));
        Assert.Null(FittingMiss.Of(0.15, 0.005, 0.15, 0, 0.004));
    }

    private static FittingMiss[] Draw(Random random, int fittings, double seating, double uncertainty, double blunders) =>
        [.. Enumerable.Range(0, fittings).Select(_ =>
        {
            double spread = Squares.CombinedStandardUncertainty(seating, uncertainty);
            spread = random.NextDouble() < blunders ? Squares.CombinedStandardUncertainty(spread, 0.05) : spread;
            return new FittingMiss(Normal.Sample(random, 0, spread), uncertainty);
        })];
}
