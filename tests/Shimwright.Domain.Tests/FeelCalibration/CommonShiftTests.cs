using MathNet.Numerics.LinearAlgebra;
using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.FeelCalibration;

[Proof(Formulas.Calibration, Evidence.Simulated, "People on four blades: the squared miss is the squared doubt.")]
public class CommonShiftTests(ITestOutputHelper output)
{
    /// <summary>The standard error of the mean of the thresholds from the bends of the log-likelihood, found by differences; and the blades' part.</summary>
    [Theory]
    [InlineData(11, 0.003)]
    [InlineData(12, 0)]
    public void Doubt_OfAFit_IsTheStandardErrorOfTheMeanThresholdWithTheBladesErrors(int seed, double blade)
    {
        IReadOnlyList<FeelTrial> trials = Person.Trials(FeelProfile.Default, 60, new SeededChance(seed));
        FeelProfile fit = FeelCalibrator.Fit(trials, new FeelProfile(blade: blade)).Fit!.Feel;
        double[] top = [fit.Firm, fit.Light, fit.Loose, fit.StandardDeviation];
        const double step = 2e-5;
        double At(double[] p) => trials.Sum(t => Math.Log(
            new FeelProfile(p[0], p[1], p[2], p[3], fit.Slip, blade).Chance(t.Trial.Feel, t.Gap, t.Trial.Blade, t.Trial.Leaves)));
        double Moved(int i, double a, int j, double b) => At([.. top.Select((x, k) => x + (k == i ? a : 0) + (k == j ? b : 0))]);
        Matrix<double> information = Matrix<double>.Build.Dense(4, 4, (i, j) => -(
            Moved(i, step, j, step) - Moved(i, step, j, -step) - Moved(i, -step, j, step) + Moved(i, -step, j, -step)) / (4 * step * step));
        Matrix<double> covariance = information.Inverse();
        double mean = Enumerable.Range(0, 9).Sum(k => covariance[k / 3, k % 3]) / 9;
        double blades = trials.GroupBy(t => (t.Trial.Blade, t.Trial.Leaves)).Sum(g => g.Key.Leaves * Math.Pow(blade * g.Count() / trials.Count, 2));
        Assert.Equal(Math.Sqrt(mean + blades), fit.Doubt, 2e-5);
    }

    /// <summary>
    /// 400 people with fingers of their own and four blades that are off, each in its own way: the squared miss of the mean threshold over the
    /// squared doubt is 1 on average (its standard error is 0.07). A doubt without the blades' part would give 1.9, one of half the size 4.
    /// </summary>
    [Fact]
    [Long]
    public void Doubt_OfManyPeople_ComesTrue()
    {
        var chance = new SeededChance(4_711);
        List<double> squares = [];
        while (squares.Count < 400)
        {
            FeelProfile drawn = Person.Drawn(chance);
            FeelProfile fingers = new(drawn.Firm, drawn.Light, drawn.Loose, drawn.StandardDeviation, drawn.Slip, blade: 0);
            double[] blades = [0.10, 0.13, 0.15, 0.20];
            double[] errors = [.. blades.Select(_ => chance.Normal(0, 0.003))];
            FeelTrial[] trials =
            [
                .. Enumerable.Range(0, 40).Select(i =>
                {
                    double gap = Math.Round(blades[i % 4] - 0.055 + (0.1 * (i + 0.5) / 40), 3);
                    return new FeelTrial(gap, new BladeTrial(blades[i % 4], Person.Touch(fingers, gap, blades[i % 4] + errors[i % 4], 1, chance)));
                }),
            ];
            if (FeelCalibrator.Fit(trials).Fit is { Feel: var fit })
            {
                double miss = ((fit.Firm + fit.Light + fit.Loose) - (fingers.Firm + fingers.Light + fingers.Loose)) / 3;
                squares.Add(Math.Pow(miss / fit.Doubt, 2));
            }
        }

        output.WriteLine($"{squares.Average()}");
        Assert.InRange(squares.Average(), 0.75, 1.3);
    }
}
