using MathNet.Numerics.Distributions;
using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Tests.Readings;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.FeelCalibration;

/// <summary>What a fit states about its doubt: exactly by its definition, and with many people whether it comes true.</summary>
[Proof(Formulas.Calibration, Evidence.Simulated, "People with forty trials each: intervals hold the truth as often as they say.")]
public class FeelCoverageTests(ITestOutputHelper output)
{
    /// <summary>
    /// At both ends of every interval the best fit of the other three parameters is just so much less likely that Student's t, with as
    /// many degrees of freedom as there are trials beyond the parameters, calls it significant: found here by a plain search.
    /// </summary>
    [Theory]
    [InlineData(45, 60)]
    [InlineData(42, 80)]
    public void Fit_Intervals_EndWhereTheLikelihoodHasFallenEnough(int seed, int trials)
    {
        IReadOnlyList<FeelTrial> tried = Person.Trials(FeelProfile.Default, trials, new SeededChance(seed));
        FeelFit fit = FeelCalibrator.Fit(tried).Fit!;
        double drop = Math.Pow(StudentT.InvCDF(0, 1, trials - 4, 0.975), 2) / 2;
        foreach ((int i, FeelParameter parameter) in fit.Parameters.Index())
        {
            Assert.All([parameter.Low, parameter.High], end => Assert.Equal(fit.LogLikelihood - drop, BestWith(tried, fit, i, end), 2e-3));
        }
    }

    /// <summary>The chi-squared law of four degrees of freedom has its tail in closed form.</summary>
    [Theory]
    [InlineData(43)]
    [InlineData(44)]
    public void Fit_AgainstDefault_IsTheRatioOfTheLikelihoods(int seed)
    {
        IReadOnlyList<FeelTrial> tried = Person.Trials(Person.Drawn(new SeededChance(seed)), 60, new SeededChance(seed));
        FeelFit fit = FeelCalibrator.Fit(tried).Fit!;
        double statistic = 2 * (LogLikelihood(tried, fit.Feel) - LogLikelihood(tried, FeelProfile.Default));
        Assert.Equal(statistic, fit.AgainstDefault.Statistic, 1e-6);
        Assert.Equal(Math.Exp(-statistic / 2) * (1 + (statistic / 2)), fit.AgainstDefault.Chance, 1e-6);
    }

    [Theory]
    [InlineData(0.0499, true)]
    [InlineData(0.05, false)]
    public void Differs_OneInTwenty_TurnsThere(double chance, bool differs) => Assert.Equal(differs, new FeelComparison(9.49, chance).Differs);

    /// <summary>
    /// With so many people an interval that held 0.94 of the truths would be seen. What the likelihood promises for many trials is true of
    /// eighty both ways; of forty the spread is held more often (0.967 were found), and nothing less often.
    /// </summary>
    [Theory]
    [Nightly]
    [InlineData(2_040, 40, 8_000, 0.97)]
    [InlineData(2_080, 80, 6_000, 0.95)]
    public void Fit_ManyPeople_KeepsTheWordOfItsIntervals(int seed, int trials, int people, double most)
    {
        var chance = new SeededChance(seed);
        int fitted = 0;
        int[] inside = new int[4];
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

        output.WriteLine($"{string.Join(", ", inside)} of {fitted}");
        Assert.True(fitted > people * 3 / 4, $"{fitted} of {people} were fitted.");
        double reach = 3.5 * Math.Sqrt(0.95 * 0.05 / fitted);
        Assert.All(inside, count => Assert.InRange(count / (double)fitted, 0.95 - reach, most + reach));
    }

    /// <summary>Default fingers are called different as often as is stated: one in twenty, to half a hundredth.</summary>
    [Fact]
    [Nightly]
    public void Fit_DefaultFingers_AreCalledDifferentAsOftenAsStated()
    {
        var chance = new SeededChance(77);
        var different = new Tally("called different");
        for (int k = 0; k < 20_000; k++)
        {
            if (FeelCalibrator.Fit(Person.Trials(FeelProfile.Default, 80, chance)).Fit is { } fit)
            {
                different.Add(FeelComparison.Limit, fit.AgainstDefault.Differs);
            }
        }

        different.AssertHolds(output, 15_000);
    }

    private static double LogLikelihood(IReadOnlyList<FeelTrial> trials, FeelProfile feel) =>
        trials.Sum(t => Math.Log(feel.Chance(t.Trial.Feel, t.Gap, t.Trial.Blade, t.Trial.Leaves)));

    /// <summary>The greatest log-likelihood with one parameter held: coordinate by coordinate, in steps that become smaller.</summary>
    private static double BestWith(IReadOnlyList<FeelTrial> trials, FeelFit fit, int held, double value)
    {
        double[] at = [fit.Feel.Firm, fit.Feel.Light, fit.Feel.Loose, fit.Feel.StandardDeviation];
        at[held] = value;
        for (int i = held + 1; i < 3; i++)
        {
            at[i] = Math.Max(at[i], at[i - 1] + 1e-4);
        }

        for (int i = Math.Min(held, 3) - 1; i >= 0 && held < 3; i--)
        {
            at[i] = Math.Min(at[i], at[i + 1] - 1e-4);
        }

        double best = At(at);
        for (double step = 0.004; step > 1e-6; step /= 2)
        {
            for (bool better = true; better;)
            {
                better = false;
                foreach (double[] moved in Enumerable.Range(0, 4).Where(i => i != held).SelectMany(i => new[] { step, -step }.Select(d => Moved(at, i, d))))
                {
                    double there = At(moved);
                    if (there > best + 1e-12)
                    {
                        (best, at, better) = (there, moved, true);
                    }
                }
            }
        }

        return best;

        double At(double[] p) => p[0] < p[1] && p[1] < p[2] && p[3] > FeelProfile.LeastSpread ? LogLikelihood(trials, new(p[0], p[1], p[2], p[3])) : double.NegativeInfinity;
    }

    private static double[] Moved(double[] p, int i, double by) => [.. p.Select((x, k) => k == i ? x + by : x)];
}
