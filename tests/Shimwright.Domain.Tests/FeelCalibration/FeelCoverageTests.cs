using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Testing;
using Xunit;

namespace Shimwright.Domain.Tests.FeelCalibration;

/// <summary>People with invented fingers try blades in known gaps; what the fit states about its doubt has to come true.</summary>
public class FeelCoverageTests
{
    private const double Stated = 0.95;

    /// <summary>Four binomial standard deviations about the stated share; each seed is fixed, so this passes always or never.</summary>
    [Theory]
    [Nightly]
    [InlineData(2_040, 40, 800)]
    [InlineData(2_080, 80, 400)]
    public void Fit_ManyPeople_KeepsTheWordOfItsIntervals(int seed, int trials, int people)
    {
        var chance = new SeededChance(seed);
        int[] inside = new int[4];
        int fitted = 0;
        for (int k = 0; k < people; k++)
        {
            FeelProfile fingers = Person.Drawn(chance);
            if (FeelCalibrator.Fit(Person.Trials(fingers, trials, chance)).Fit is { } fit)
            {
                fitted++;
                double[] truth = [fingers.Firm, fingers.Light, fingers.Loose, fingers.StandardDeviation];
                foreach ((int i, FeelParameter parameter) in fit.Parameters.Index())
                {
                    inside[i] += truth[i] >= parameter.Low && truth[i] <= parameter.High ? 1 : 0;
                }
            }
        }

        double limit = 4 * Math.Sqrt(Stated * (1 - Stated) / fitted);
        Assert.True(fitted > people * 3 / 4, $"{fitted} of {people} were fitted.");
        Assert.All(inside, count => Assert.InRange(count / (double)fitted, Stated - limit, Stated + limit));
    }

    /// <summary>The chance that the comparison states for default fingers is met: one in twenty is called different.</summary>
    [Fact]
    [Nightly]
    public void Fit_DefaultFingers_AreCalledDifferentAsOftenAsStated()
    {
        var chance = new SeededChance(77);
        int fitted = 0;
        int different = 0;
        for (int k = 0; k < 300; k++)
        {
            if (FeelCalibrator.Fit(Person.Trials(FeelProfile.Default, 80, chance)).Fit is { } fit)
            {
                fitted++;
                different += fit.AgainstDefault.Differs ? 1 : 0;
            }
        }

        double limit = 4 * Math.Sqrt(FeelComparison.Limit * (1 - FeelComparison.Limit) / fitted);
        Assert.InRange(different / (double)fitted, FeelComparison.Limit - limit, FeelComparison.Limit + limit);
    }
}
