using Shimwright.Domain.Wear;
using Shimwright.Reference.Published;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Wear;

/// <summary>The first passage against tables of the inverse Gaussian law: mean d/r, shape d²/q, here with q = 1.</summary>
[Proof(Formulas.Passage, Evidence.Published, "Tables of the inverse Gaussian law.")]
public class FirstPassageTests
{
    // statmod 1.5.0, as data/published/inverse-gaussian/README.md says: the eight digits that the tables have.
    [Theory]
    [PublishedFile("inverse-gaussian/statmod.csv")]
    public void Chance_Statmod_GivesPublishedValues(PublishedFile file) => AssertRows(file, 16);

    // scipy, the same README: tails of 1e-219, which are 0 here, and a factor e^{2rd/q} of e^20000, which overflows alone.
    [Theory]
    [PublishedFile("inverse-gaussian/scipy.csv")]
    public void Chance_ExtremeTails_GivesPublishedValues(PublishedFile file) => AssertRows(file, 6);

    // Computed values, see data/published/gaas-laser/README.md: eight digits.
    [Theory]
    [PublishedFile("gaas-laser/first-passage.csv")]
    public void Chance_GaAsLasers_GivesComputedValues(PublishedFile file)
    {
        const double Distance = 10, Drift = 0.00203790667, Variance = 1.6026729e-4;
        IReadOnlyList<IReadOnlyDictionary<string, string>> rows = PublishedRows.Rows(file);
        Assert.Equal(7, rows.Count);
        Assert.All(rows, row => Assert.Equal(row.Number("value"), Chance(Distance, Drift, Variance, row.Number("hours")), 5e-8));
        Assert.Equal(4906.99607, Distance / Drift, 1e-4);
        Assert.Equal(623957.6236, Distance * Distance / Variance, 0.05);
    }

    private static void AssertRows(PublishedFile file, int count)
    {
        IReadOnlyList<IReadOnlyDictionary<string, string>> rows = PublishedRows.Rows(file);
        Assert.Equal(count, rows.Count);
        foreach (IReadOnlyDictionary<string, string> row in rows)
        {
            double distance = Math.Sqrt(1 / row.Number("dispersion"));
            double value = row.Number("value");
            double published = row["what"] switch
            {
                "lower" => value,
                "upper" => 1 - value,
                "logLower" => Math.Exp(value),
                "logUpper" => -double.ExpM1(value),
                _ => throw new InvalidOperationException(row["what"]),
            };
            Assert.Equal(published, Chance(distance, distance / row.Number("mean"), 1, row.Number("x")), 1e-8);
        }
    }

    private static double Chance(double distance, double rate, double diffusion, double time) =>
        FirstPassage.ChanceFromTable(distance, rate, time, Math.Sqrt(diffusion * time));
}
