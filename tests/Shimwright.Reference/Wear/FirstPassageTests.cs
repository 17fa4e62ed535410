using Shimwright.Domain.Wear;
using Shimwright.Reference.Published;
using Xunit;

namespace Shimwright.Reference.Wear;

/// <summary>The first passage against tables of the inverse Gaussian law: mean d/r, shape d²/q, here with q = 1.</summary>
public class FirstPassageTests
{
    // statmod 1.5.0, as data/published/inverse-gaussian/README.md says: all printed digits, 9 to 13 of them.
    [Theory]
    [PublishedFile("inverse-gaussian/statmod.csv")]
    public void Chance_Statmod_GivesPublishedValues(PublishedFile file) => AssertRows(file, 16, 3e-9);

    // scipy, the same README: tails of 1e-219, and a factor e^{2rd/q} of e^20000.
    [Theory]
    [PublishedFile("inverse-gaussian/scipy.csv")]
    public void Chance_ExtremeTails_GivesPublishedValues(PublishedFile file) => AssertRows(file, 6, 1e-10);

    // Computed values, see data/published/gaas-laser/README.md: eight digits.
    [Theory]
    [PublishedFile("gaas-laser/first-passage.csv")]
    public void Chance_GaAsLasers_GivesComputedValues(PublishedFile file)
    {
        const double Distance = 10, Drift = 0.00203790667, Variance = 1.6026729e-4;
        IReadOnlyList<IReadOnlyDictionary<string, string>> rows = PublishedRows.Rows(file);
        Assert.Equal(7, rows.Count);
        Assert.All(rows, row => Assert.Equal(row.Number("value"), FirstPassage.Chance(Distance, Drift, Variance, row.Number("hours")), 5e-8));
        Assert.Equal(4906.99607, Distance / Drift, 1e-4);
        Assert.Equal(623957.6236, Distance * Distance / Variance, 0.05);
    }

    private static void AssertRows(PublishedFile file, int count, double relative)
    {
        IReadOnlyList<IReadOnlyDictionary<string, string>> rows = PublishedRows.Rows(file);
        Assert.Equal(count, rows.Count);
        foreach (IReadOnlyDictionary<string, string> row in rows)
        {
            double distance = Math.Sqrt(1 / row.Number("dispersion"));
            double rate = distance / row.Number("mean");
            double time = row.Number("x");
            double found = row["what"] switch
            {
                "lower" => FirstPassage.Chance(distance, rate, 1, time),
                "upper" => Math.Exp(FirstPassage.LogSurvival(distance, rate, 1, time)),
                "logLower" => FirstPassage.LogChance(distance, rate, 1, time),
                "logUpper" => FirstPassage.LogSurvival(distance, rate, 1, time),
                _ => throw new InvalidOperationException(row["what"]),
            };
            Assert.Equal(1, found / row.Number("value"), relative);
        }
    }
}
