using Shimwright.Domain.Wear;
using Shimwright.Reference.Published;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Wear;

/// <summary>Batches of dyestuff in the place of valves: each batch's mean is the evidence, its uncertainty that of five yields.</summary>
[Proof(Formulas.Pool, Evidence.Published, "Batches of dyestuff (Davies and Goldsmith; data of lme4): mean and residual published, spread of the batches from memory.")]
public class PooledRatesTests
{
    // lme4, Dyestuff: see data/published/dyestuff/README.md.
    [Theory]
    [PublishedFile("dyestuff/yields.csv")]
    public void Fit_Dyestuff_GivesTheMaximumLikelihoodOfTheBatches(PublishedFile file)
    {
        RateEvidence[] batches = Batches(file, out double residual);
        Assert.Equal(49.51, residual, 0.005);
        RateDistribution law = PooledRates.Fit(batches);
        Assert.Equal(1527.5, law.Mean, 1e-9);
        Assert.Equal(37.26, law.StandardDeviation, 0.005);

        // Balanced, so in closed form: a sixth of the batches' squares less what five yields leave.
        double between = batches.Average(b => (b.Rate - 1527.5) * (b.Rate - 1527.5)) - (residual * residual / 5);
        Assert.Equal(Math.Sqrt(between), law.StandardDeviation, 1e-7);
    }

    private static RateEvidence[] Batches(PublishedFile file, out double residual)
    {
        double[][] yields = [.. PublishedRows.Rows(file).GroupBy(row => row["batch"]).Select(g => g.Select(row => row.Number("yield")).ToArray())];
        double variance = yields.Sum(b => b.Sum(y => (y - b.Average()) * (y - b.Average()))) / 24;
        residual = Math.Sqrt(variance);
        return [.. yields.Select(b => new RateEvidence(b.Average(), Math.Sqrt(variance / 5)))];
    }
}
