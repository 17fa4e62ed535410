using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Testing.Chance;

namespace Shimwright.Study;

/// <summary>People whose fingers are their own, and how they calibrate them.</summary>
internal static class Calibration
{
    private const int StandardDeviation = 10;
    private const int Usual = 40;
    private const int Most = 60;
    private static readonly double[] Blades = [0.10, 0.13, 0.15, 0.20];

    /// <summary>Thresholds off the usual ones by N(0, 0.010²) together and N(0, 0.004²) each, spread by a factor exp(N(0, 0.3²)).</summary>
    public static FeelProfile Somebody(Draws draws)
    {
        const double apart = 0.008;
        FeelProfile usual = FeelProfile.Default;
        double all = draws.Normal(0.010);
        double firm = usual.Firm + all + draws.Normal(0.004);
        double light = Math.Max(firm + apart, usual.Light + all + draws.Normal(0.004));
        double loose = Math.Max(light + apart, usual.Loose + all + draws.Normal(0.004));
        return new(firm, light, loose, Math.Clamp(usual.StandardDeviation * Math.Exp(draws.Normal(0.3)), 0.003, 0.015));
    }

    /// <summary>
    /// Ten trials spread evenly over plays of -0.055 to 0.045, then what is suggested, three at a time: 40 trials, and up to 60
    /// where there is no fit by then.
    /// </summary>
    public static FeelProfile Of(FeelProfile fingers, Draws draws)
    {
        List<FeelTrial> trials = [];
        for (int i = 0; i < StandardDeviation; i++)
        {
            double blade = Blades[i % Blades.Length];
            Add(trials, fingers, Math.Round((blade - 0.055 + (0.1 * (i + 0.5) / StandardDeviation)) / 0.005) * 0.005, blade, draws);
        }

        FeelCalibrationResult result = FeelCalibrator.Fit(trials);
        while (trials.Count < Usual || (result.Fit is null && trials.Count < Most))
        {
            foreach (NextFeelTrial next in result.Next)
            {
                Add(trials, fingers, next.Gap, next.Blade, draws);
            }

            result = FeelCalibrator.Fit(trials);
        }

        return result.Fit?.Feel ?? FeelProfile.Default;
    }

    private static void Add(List<FeelTrial> trials, FeelProfile fingers, double gap, double blade, Draws draws) =>
        trials.Add(new FeelTrial(gap, new BladeTrial(blade, Fingers.Touch(fingers, gap, blade, draws))));
}
