using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Testing.Chance;

namespace Shimwright.Jobs.Tests.FeelCalibration;

public class FeelPromiseTests(ITestOutputHelper output)
{
    /// <summary>The figure is what forty trials leave people whose fingers are all somewhat different, one in two of them less.</summary>
    [Fact]
    public void After_PeopleWithFortyTrials_LeavesThemAboutThat()
    {
        var draws = new Draws(40, 1916);
        double[] doubts = [.. Enumerable.Range(0, 200).Select(_ => FeelCalibrator.Fit(TrialsOf(draws)).Fit?.Feel.Doubt).OfType<double>().Order()];
        output.WriteLine($"{doubts.Length} of 200 fitted: {doubts[doubts.Length / 10]:0.0000}, {doubts[doubts.Length / 2]:0.0000}, {doubts[doubts.Length * 9 / 10]:0.0000} mm; promised {FeelPromise.After:0.0000}");
        Assert.True(doubts.Length > 140);
        Assert.Equal(doubts[doubts.Length / 2], FeelPromise.After, 0.0002);
        // Nine of ten are left with half of the usual doubt or little more.
        Assert.InRange(doubts[doubts.Length / 20], 0.0018, FeelPromise.After);
        Assert.InRange(doubts[doubts.Length * 19 / 20], FeelPromise.After, 0.0032);
        Assert.InRange(FeelPromise.After, 0.002, FeelPromise.Before / 2);
    }

    [Fact]
    public void Before_IsTheDoubtOfTheUsualFeel() => Assert.Equal(FeelProfile.Default.Doubt, FeelPromise.Before);

    private static FeelTrial[] TrialsOf(Draws draws)
    {
        double all = draws.Normal(0.008);
        var fingers = new FeelProfile(
            -0.025 + all, -0.005 + all, 0.017 + all, Math.Clamp(0.006 * Math.Exp(draws.Normal(0.3)), 0.003, 0.015));
        double[] blades = [0.10, 0.13, 0.15, 0.20];
        return [.. Enumerable.Range(0, FeelPromise.Trials).Select(i =>
        {
            double blade = blades[draws.Below(blades.Length)];
            double gap = Math.Round(blade - 0.055 + (0.1 * (i + 0.5) / FeelPromise.Trials), 3);
            return new FeelTrial(gap, new BladeTrial(blade, Fingers.Touch(fingers, gap, blade, draws)));
        })];
    }
}
