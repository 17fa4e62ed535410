using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.FeelCalibration;

/// <summary>Where one answer of the calibrator turns into another, and what it suggests there.</summary>
public class FeelCalibratorEdgeTests
{
    private const double Blade = 0.15;

    [Fact]
    public void Fit_TwelveTrials_AreEnough() =>
        Assert.DoesNotContain(FeelCalibrator.Fit(Twelve(Feel.Loose)).Status, new[] { FeelStatus.TooFewTrials, FeelStatus.FeelMissing });

    [Fact]
    public void Fit_TwelveTrialsNoneLoose_SaysWhichFeelIsMissing()
    {
        FeelCalibrationResult result = FeelCalibrator.Fit(Twelve(Feel.Light));

        Assert.Equal(FeelStatus.FeelMissing, result.Status);
        Assert.Equal([Feel.Loose], result.Missing);
    }

    /// <summary>It went in wherever it was tried, so a narrower gap than all of those is needed.</summary>
    [Fact]
    public void Fit_NeverRefused_SuggestsANarrowerGapThanAnyThatWasTried()
    {
        FeelTrial[] trials = [.. Twelve(Feel.Loose).Select(t => t.Trial.Feel == Feel.No ? Made(t.Play, Feel.Firm) : t)];

        NextFeelTrial next = FeelCalibrator.Fit(trials).Next[0];

        Assert.InRange(next.Gap - next.Blade, trials.Min(t => t.Play) - 0.0151, trials.Min(t => t.Play) - 0.0049);
    }

    /// <summary>It dragged wherever it was tried, so a wider gap than all of those is needed.</summary>
    [Fact]
    public void Fit_NeverLoose_SuggestsAWiderGapThanAnyThatWasTried()
    {
        FeelTrial[] trials = Twelve(Feel.Light);

        NextFeelTrial next = FeelCalibrator.Fit(trials).Next[0];

        Assert.InRange(next.Gap - next.Blade, trials.Max(t => t.Play) + 0.0049, trials.Max(t => t.Play) + 0.0151);
    }

    [Fact]
    public void Fit_OneBladeTriedLittle_SuggestsThatOne()
    {
        FeelTrial[] trials =
        [
            .. Person.Trials(FeelProfile.Default, 40, new SeededChance(41)).Select((t, i) =>
                new FeelTrial(Of(i) + t.Play, new BladeTrial(Of(i), t.Trial.Feel))),
        ];

        Assert.All(FeelCalibrator.Fit(trials).Next, n => Assert.Equal(0.20, n.Blade, 1e-9));

        static double Of(int i) => i < 20 ? 0.10 : i < 36 ? 0.15 : 0.20;
    }

    /// <summary>Whoever calls it a light drag in three tenths of a millimetre of play holds the blade otherwise.</summary>
    [Fact]
    public void Fit_ThresholdsFarApart_AreNoFingers()
    {
        var chance = new SeededChance(42);
        FeelTrial[] trials =
        [
            .. Enumerable.Range(0, 200).Select(i => -0.1 + (0.0028 * i)).Select(play =>
            {
                double felt = play + chance.Normal(0, 0.02);
                return Made(play, felt < 0.02 ? Feel.No : felt < 0.12 ? Feel.Firm : felt < 0.30 ? Feel.Light : Feel.Loose);
            }),
        ];

        FeelCalibrationResult result = FeelCalibrator.Fit(trials);

        Assert.Equal(FeelStatus.NotFingers, result.Status);
        Assert.Null(result.Fit);
        Assert.Equal(3, result.Next.Count);
    }

    /// <summary>How sharp fingers are cannot be said of trials that never overlap; what to try next is chosen for usual ones.</summary>
    [Fact]
    public void Fit_FeelsWithoutOverlap_SuggestsAsForUsualFingers()
    {
        FeelTrial[] trials =
        [
            .. Enumerable.Range(0, 20).Select(i => -0.05 + (0.005 * i)).Select(play =>
                Made(play, play < -0.025 ? Feel.No : play < -0.005 ? Feel.Firm : play < 0.017 ? Feel.Light : Feel.Loose)),
        ];
        var likelihood = new FeelLikelihood(FeelProfile.Default.Slip, FeelProfile.Default.Blade);

        FeelCalibrationResult result = FeelCalibrator.Fit(trials);

        Assert.Equal(FeelStatus.Separated, result.Status);
        NextFeelTrial usual = NextFeelTrial.Suggest(trials, FeelLikelihood.PointOf(FeelProfile.Default), likelihood, 1)[0];
        Assert.Equal(usual.Gain, result.Next[0].Gain, 0.1 * usual.Gain);
    }

    /// <summary>Twice the difference of the logarithms, against chi-squared of four degrees, whose tail is e^(-x/2) (1 + x/2).</summary>
    [Theory]
    [InlineData(43)]
    [InlineData(44)]
    [InlineData(46)]
    public void Fit_AgainstUsualFingers_IsTheLikelihoodRatioOfFourParameters(int seed)
    {
        IReadOnlyList<FeelTrial> trials = Person.Trials(new FeelProfile(-0.029, -0.009, 0.013), 40, new SeededChance(seed));

        FeelFit fit = FeelCalibrator.Fit(trials).Fit!;

        double half = LogLikelihood(trials, fit.Feel) - LogLikelihood(trials, FeelProfile.Default);
        Assert.Equal(2 * half, fit.AgainstDefault.Statistic, 1e-6);
        Assert.Equal(Math.Exp(-half) * (1 + half), fit.AgainstDefault.Chance, 1e-6);
    }

    /// <summary>
    /// At an end of an interval the best that the other parameters can do is t²/2 below the top; t = 1.9850 for 96 degrees
    /// (tables of Student's t, 0.975). The best is looked for here by steps in every direction, not by the fit's own climb.
    /// </summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Fit_AtTheEndsOfAnInterval_TheOtherParametersAreFittedAgain(int parameter)
    {
        IReadOnlyList<FeelTrial> trials = Person.Trials(new FeelProfile(spread: 0.010), 100, new SeededChance(26));
        FeelFit fit = FeelCalibrator.Fit(trials).Fit!;
        double[] top = [fit.Feel.Firm, fit.Feel.Light, fit.Feel.Loose, fit.Feel.StandardDeviation];

        foreach (double end in new[] { fit.Parameters[parameter].Low, fit.Parameters[parameter].High })
        {
            double drop = 2 * (fit.LogLikelihood - BestWith(trials, top, parameter, end));
            Assert.Equal(1.9850 * 1.9850, drop, 0.01);
        }
    }

    private static double BestWith(IReadOnlyList<FeelTrial> trials, double[] start, int held, double value)
    {
        double[] at = [.. start];
        at[held] = value;
        double best = Of(at);
        for (double step = 0.004; step > 1e-8;)
        {
            bool isBetter = false;
            for (int i = 0; i < at.Length; i++)
            {
                foreach (double by in new[] { step, -step })
                {
                    double[] moved = [.. at];
                    moved[i] += i == held ? 0 : by;
                    double log = Of(moved);
                    (at, best, isBetter) = log > best + 1e-12 ? (moved, log, true) : (at, best, isBetter);
                }
            }

            step = isBetter ? step : step / 2;
        }

        return best;

        double Of(double[] p) => p[0] < p[1] && p[1] < p[2] && p[3] >= FeelProfile.LeastSpread
            ? LogLikelihood(trials, new FeelProfile(p[0], p[1], p[2], p[3]))
            : double.NegativeInfinity;
    }

    /// <summary>Twelve trials from tight to wide; the four widest feel as told.</summary>
    private static FeelTrial[] Twelve(Feel widest) =>
    [
        Made(-0.055, Feel.No), Made(-0.045, Feel.No), Made(-0.03, Feel.No),
        Made(-0.032, Feel.Firm), Made(-0.02, Feel.Firm), Made(-0.003, Feel.Firm),
        Made(-0.008, Feel.Light), Made(0.005, Feel.Light),
        Made(0.02, widest), Made(0.03, widest), Made(0.04, widest), Made(0.05, widest),
    ];

    private static FeelTrial Made(double play, Feel feel) => new(Blade + play, new BladeTrial(Blade, feel));

    private static double LogLikelihood(IReadOnlyList<FeelTrial> trials, FeelProfile feel) =>
        trials.Sum(t => Math.Log(feel.Chance(t.Trial.Feel, t.Gap, t.Trial.Blade, t.Trial.Leaves)));
}
