using MathNet.Numerics.LinearAlgebra;
using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Testing;
using Xunit;

namespace Shimwright.Domain.Tests.FeelCalibration;

public class NextFeelTrialTests
{
    [Fact]
    public void Suggest_AfterAFit_IsTheGapOfGreatestDeterminant()
    {
        FeelCalibrationResult result = FeelCalibrator.Fit(Person.Trials(FeelProfile.Default, 40, new SeededChance(31)));
        FeelFit fit = result.Fit!;
        var likelihood = new FeelLikelihood(0.02, 0.003);
        Vector<double> p = FeelLikelihood.PointOf(fit.Feel);
        var prior = Matrix<double>.Build.DenseOfDiagonalArray([2500, 2500, 2500, 1 / 0.49]);
        Matrix<double> known = Person.Trials(FeelProfile.Default, 40, new SeededChance(31))
            .Aggregate(prior, (sum, t) => sum + likelihood.Expected(t.Play, t.Trial.Leaves, p));
        double Determinant(double play) => (known + likelihood.Expected(play, 1, p)).Determinant();

        NextFeelTrial next = result.Next[0];

        double best = Determinant(next.Gap - next.Blade);
        Assert.Equal(Math.Log(best / known.Determinant()) / 2, next.Gain, 1e-9);
        for (double gap = 0.005; gap < 0.4; gap += 0.005)
        {
            Assert.True(Determinant(gap - next.Blade) <= best * (1 + 1e-8), $"{gap} would say more than {next.Gap}.");
        }
    }

    [Fact]
    public void Suggest_ManyInARow_LeaveNoThresholdOut()
    {
        IReadOnlyList<NextFeelTrial> plan = NextFeelTrial.Suggest(
            [], FeelLikelihood.PointOf(FeelProfile.Default), new FeelLikelihood(0.02, 0.003), 12);

        foreach (double threshold in new[] { -0.025, -0.005, 0.017 })
        {
            Assert.True(plan.Count(n => Math.Abs(n.Gap - n.Blade - threshold) < 0.012) >= 2, $"{threshold} is hardly looked at.");
        }
    }

    /// <summary>A person who does as told has every blade in hand by turns, not the first one for ever.</summary>
    [Fact]
    public void Fit_BladesAtHand_TakeTurns()
    {
        double[] set = [0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.25, 1.00];
        List<FeelTrial> made = [];
        for (int trial = 0; trial < 9; trial++)
        {
            NextFeelTrial next = FeelCalibrator.Fit(made, atHand: set).Next[0];
            made.Add(new FeelTrial(next.Gap, new BladeTrial(next.Blade, next.Gap > next.Blade ? Feel.Light : Feel.Firm)));
        }

        Assert.Equal([0.10, 0.15, 0.20, 0.10, 0.15, 0.20, 0.10, 0.15, 0.20], made.Select(t => t.Trial.Blade));
    }

    [Fact]
    [Long]
    public void Suggest_Followed_SaysMoreThanTrialsSpreadEvenly()
    {
        int people = Effort.Cases(12, 400);
        var chance = new SeededChance(32);
        double followed = 0;
        double spread = 0;
        int both = 0;
        for (int person = 0; person < people; person++)
        {
            FeelProfile fingers = Person.Drawn(chance);
            FeelFit? one = FeelCalibrator.Fit(Person.Guided(fingers, 40, chance)).Fit;
            FeelFit? other = FeelCalibrator.Fit(Person.Trials(fingers, 40, chance)).Fit;
            if (one is not null && other is not null)
            {
                both++;
                followed += Error(one.Feel, fingers);
                spread += Error(other.Feel, fingers);
            }
        }

        Assert.True(both > people / 2);
        Assert.True(followed < spread, $"Followed {followed / both}, spread evenly {spread / both}.");
    }

    private static double Error(FeelProfile found, FeelProfile truth) =>
        Math.Pow(found.Firm - truth.Firm, 2) + Math.Pow(found.Light - truth.Light, 2) + Math.Pow(found.Loose - truth.Loose, 2);
}
