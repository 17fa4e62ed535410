using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Tests.FeelCalibration;

/// <summary>Somebody with known fingers who tries blades in known gaps.</summary>
internal static class Person
{
    /// <summary>Fingers that differ from the default ones.</summary>
    public static FeelProfile Drawn(SeededChance chance)
    {
        double all = chance.Normal(0, 0.008);
        double firm = -0.025 + all + chance.Normal(0, 0.003);
        double light = -0.005 + all + chance.Normal(0, 0.003);
        double loose = 0.017 + all + chance.Normal(0, 0.003);
        return new FeelProfile(
            firm, Math.Max(light, firm + 0.008), Math.Max(loose, Math.Max(light, firm + 0.008) + 0.008),
            Math.Clamp(0.006 * Math.Exp(chance.Normal(0, 0.3)), 0.003, 0.015));
    }

    public static Feel Touch(FeelProfile feel, double gap, double blade, int leaves, SeededChance chance)
    {
        double left = chance.Uniform();
        foreach (Feel f in Enum.GetValues<Feel>())
        {
            left -= feel.Chance(f, gap, blade, leaves);
            if (left < 0)
            {
                return f;
            }
        }

        return Feel.Loose;
    }

    /// <summary>Trials whose plays lie evenly over [-0.055, 0.045], as somebody would make them who knows nothing yet.</summary>
    public static IReadOnlyList<FeelTrial> Trials(FeelProfile feel, int count, SeededChance chance)
    {
        double[] plays = chance.Shuffled(Enumerable.Range(0, count).Select(i => -0.055 + (0.1 * (i + 0.5) / count)));
        return
        [
            .. plays.Select(play =>
            {
                int leaves = chance.Happens(0.2) ? 2 : 1;
                double blade = chance.Pick(0.10, 0.13, 0.15, 0.20);
                double gap = Math.Round(blade + play, 3);
                return new FeelTrial(gap, new BladeTrial(blade, Touch(feel, gap, blade, leaves, chance), leaves));
            }),
        ];
    }

    /// <summary>Eight trials spread evenly, then each time what is suggested.</summary>
    public static IReadOnlyList<FeelTrial> Guided(FeelProfile feel, int count, SeededChance chance)
    {
        List<FeelTrial> trials = [.. Trials(feel, 8, chance)];
        while (trials.Count < count)
        {
            NextFeelTrial next = FeelCalibrator.Fit(trials).Next[0];
            trials.Add(new FeelTrial(next.Gap, new BladeTrial(next.Blade, Touch(feel, next.Gap, next.Blade, 1, chance))));
        }

        return trials;
    }
}
