using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.FeelCalibration;

public class FeelCalibratorTests
{
    [Fact]
    public void Fit_ManyTrials_FindsTheFingers()
    {
        var fingers = new FeelProfile(-0.034, -0.012, 0.009, 0.008);

        FeelFit fit = Fitted(Person.Trials(fingers, 4000, new SeededChance(21)));

        Assert.Equal(fingers.Firm, fit.Feel.Firm, 0.001);
        Assert.Equal(fingers.Light, fit.Feel.Light, 0.001);
        Assert.Equal(fingers.Loose, fit.Feel.Loose, 0.001);
        Assert.Equal(fingers.StandardDeviation, fit.Feel.StandardDeviation, 0.0008);
        Assert.True(fit.AgainstDefault.Chance < 1e-9);
        Assert.True(fit.AgainstDefault.Differs);
    }

    [Fact]
    public void Fit_AnyTrials_IsLikelierThanAnyOtherFingers()
    {
        var chance = new SeededChance(22);
        for (int k = 0; k < 10; k++)
        {
            IReadOnlyList<FeelTrial> trials = Person.Trials(Person.Drawn(chance), 60, chance);
            if (FeelCalibrator.Fit(trials).Fit is not { } fit)
            {
                continue;
            }

            Assert.Equal(LogLikelihood(trials, fit.Feel), fit.LogLikelihood, 1e-6);
            for (int other = 0; other < 200; other++)
            {
                Assert.True(LogLikelihood(trials, Person.Drawn(chance)) <= fit.LogLikelihood + 1e-9);
                Assert.True(LogLikelihood(trials, Near(fit.Feel, chance)) <= fit.LogLikelihood + 1e-9);
            }
        }
    }

    [Fact]
    public void Fit_TrialsInAnotherOrder_AreTheSameFit()
    {
        var chance = new SeededChance(23);
        IReadOnlyList<FeelTrial> trials = Person.Trials(FeelProfile.Default, 50, chance);

        FeelFit one = Fitted(trials);
        FeelFit other = Fitted(chance.Shuffled(trials));

        Assert.Equal(one.Feel.Light, other.Feel.Light, 1e-9);
        Assert.Equal(one.Parameters[3].High, other.Parameters[3].High, 1e-6);
    }

    [Fact]
    public void Fit_ThickerBladesInWiderGaps_AreTheSameFit()
    {
        IReadOnlyList<FeelTrial> trials = Person.Trials(FeelProfile.Default, 50, new SeededChance(23));

        FeelFit one = Fitted(trials);
        FeelFit other = Fitted([.. trials.Select(t => new FeelTrial(t.Gap + 0.25, new BladeTrial(t.Trial.Blade + 0.25, t.Trial.Feel, t.Trial.Leaves)))]);

        Assert.Equal(one.Feel.Firm, other.Feel.Firm, 1e-8);
        Assert.Equal(one.Feel.StandardDeviation, other.Feel.StandardDeviation, 1e-8);
    }

    [Fact]
    public void Fit_BladesThatAreBetterKnown_LeaveMoreToTheFingers()
    {
        IReadOnlyList<FeelTrial> trials = Person.Trials(new FeelProfile(spread: 0.008), 200, new SeededChance(24));

        double usual = Fitted(trials).Feel.StandardDeviation;
        FeelFit exact = FeelCalibrator.Fit(trials, new FeelProfile(blade: 0)).Fit!;

        Assert.True(exact.Feel.StandardDeviation > usual);
        Assert.Equal(0, exact.Feel.Blade);
        Assert.Equal(Math.Sqrt((usual * usual) + (0.003 * 0.003)), exact.Feel.StandardDeviation, 0.0004);
    }

    [Fact]
    public void Fit_Intervals_HoldTheValue() =>
        Assert.All(Fitted(Person.Trials(FeelProfile.Default, 40, new SeededChance(26))).Parameters, p =>
        {
            Assert.InRange(p.Value, p.Low, p.High);
            Assert.InRange(p.High - p.Low, 1.5 * p.StandardError, 12 * p.StandardError);
        });

    [Fact]
    public void Fit_ElevenTrials_AreTooFewAndSayWhatToTry()
    {
        FeelCalibrationResult result = FeelCalibrator.Fit(Person.Trials(FeelProfile.Default, 11, new SeededChance(27)));

        Assert.Equal(FeelStatus.TooFewTrials, result.Status);
        Assert.Null(result.Fit);
        Assert.Equal(3, result.Next.Count);
    }

    [Fact]
    public void Fit_NoTrial_IsTooFewAndSaysWhatToTry()
    {
        FeelCalibrationResult result = FeelCalibrator.Fit([]);

        Assert.Equal(FeelStatus.TooFewTrials, result.Status);
        Assert.Equal(Enum.GetValues<Feel>(), result.Missing);
        Assert.All(result.Next, n => Assert.InRange(n.Gap - n.Blade, -0.06, 0.05));
    }

    [Theory]
    [InlineData(Feel.No, -1, -0.035)]
    [InlineData(Feel.Firm, -0.025, -0.005)]
    [InlineData(Feel.Light, -0.005, 0.017)]
    [InlineData(Feel.Loose, 0.027, 1)]
    public void Fit_FeelThatNeverCame_IsNamedWithAGapWhereItWould(Feel missing, double least, double greatest)
    {
        FeelTrial[] trials = [.. Person.Trials(FeelProfile.Default, 60, new SeededChance(28)).Where(t => t.Trial.Feel != missing)];

        FeelCalibrationResult result = FeelCalibrator.Fit(trials);

        Assert.Equal(FeelStatus.FeelMissing, result.Status);
        Assert.Equal([missing], result.Missing);
        Assert.InRange(result.Next[0].Gap - result.Next[0].Blade, least, greatest);
    }

    [Fact]
    public void Fit_FeelsWithoutOverlap_AreSeparatedAndSayWhereToTry()
    {
        FeelTrial[] trials = [.. Enumerable.Range(0, 20).Select(i => Exact(0.15 - 0.05 + (0.005 * i)))];

        FeelCalibrationResult result = FeelCalibrator.Fit(trials);

        Assert.Equal(FeelStatus.Separated, result.Status);
        Assert.Null(result.Fit);
        Assert.All(result.Next, n => Assert.InRange(n.Gap - n.Blade, -0.045, 0.04));
    }

    [Fact]
    public void Fit_FeelThatTightensWithTheGap_IsNoFingers()
    {
        FeelTrial[] trials = [.. Person.Trials(FeelProfile.Default, 60, new SeededChance(29)).Select(t => new FeelTrial(t.Trial.Blade, new BladeTrial(t.Gap, t.Trial.Feel)))];

        Assert.Equal(FeelStatus.NotFingers, FeelCalibrator.Fit(trials).Status);
    }

    [Fact]
    public void FeelTrial_OutsideItsRange_IsRefused()
    {
        var blade = new BladeTrial(0.2, Feel.Light);
        Refuses.NotANumber("gap", g => new FeelTrial(g, blade));
        Assert.Throws<ArgumentOutOfRangeException>(() => new FeelTrial(0, blade));
        Assert.Throws<ArgumentOutOfRangeException>(() => new FeelTrial(0.71, blade));
        Assert.Equal(0.5, new FeelTrial(0.7, blade).Play, 1e-12);
    }

    /// <summary>Default thresholds without any spread.</summary>
    private static FeelTrial Exact(double gap)
    {
        double play = gap - 0.15;
        return new(gap, new BladeTrial(0.15, play < -0.025 ? Feel.No : play < -0.005 ? Feel.Firm : play < 0.017 ? Feel.Light : Feel.Loose));
    }

    private static FeelFit Fitted(IReadOnlyList<FeelTrial> trials)
    {
        FeelCalibrationResult result = FeelCalibrator.Fit(trials);
        Assert.Equal(FeelStatus.Fitted, result.Status);
        return result.Fit!;
    }

    private static double LogLikelihood(IReadOnlyList<FeelTrial> trials, FeelProfile feel) =>
        trials.Sum(t => Math.Log(feel.Chance(t.Trial.Feel, t.Gap, t.Trial.Blade, t.Trial.Leaves)));

    private static FeelProfile Near(FeelProfile feel, SeededChance chance) => new(
        feel.Firm + chance.Normal(0, 0.0005), feel.Light + chance.Normal(0, 0.0005), feel.Loose + chance.Normal(0, 0.0005),
        Math.Max(0.001, feel.StandardDeviation + chance.Normal(0, 0.0005)));
}
