using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;

namespace Shimwright.Jobs.FeelCalibration;

/// <summary>
/// What trials would bring somebody who has made none: the doubt that forty leave usual fingers, of which all readings share the one offset.
/// The trials lie evenly over the plays at which a feel changes, on four blades; what each is felt as comes from evenly spread chances
/// (H. Weyl, "Über die Gleichverteilung von Zahlen mod. Eins", Math. Ann. 77, 1916), so that the figure is the same everywhere.
/// </summary>
public static class FeelPromise
{
    /// <summary>How many trials are promised about.</summary>
    public const int Trials = 40;

    /// <summary>The thinnest and the widest play that is tried, mm: beyond them every feel is known beforehand.</summary>
    private const double Tightest = -0.055, Widest = 0.045;

    /// <summary>The golden section, whose multiples are spread most evenly.</summary>
    private const double Golden = 0.6180339887498949;

    private static readonly double[] Blades = [0.10, 0.13, 0.15, 0.20];
    private static readonly Lazy<double> Worked = new(Work);

    /// <summary>The doubt of the usual feel, mm.</summary>
    public static double Before => FeelProfile.UsualDoubt;

    /// <summary>What is left of it after the trials, mm.</summary>
    public static double After => Worked.Value;

    private static double Work()
    {
        FeelTrial[] trials = [.. Enumerable.Range(0, Trials).Select(i =>
        {
            double blade = Blades[i % Blades.Length];
            double gap = Math.Round(blade + Tightest + ((Widest - Tightest) * (i + 0.5) / Trials), 3);
            return new FeelTrial(gap, new BladeTrial(blade, FeltAt(gap, blade, (i + 1) * Golden % 1)));
        })];
        return FeelCalibrator.Fit(trials).Fit?.Feel.Doubt ?? Before;
    }

    /// <summary>The feel at a place among its chances, from 0 to 1.</summary>
    private static Feel FeltAt(double gap, double blade, double place)
    {
        double below = 0;
        return Enum.GetValues<Feel>().FirstOrDefault(f => (below += FeelProfile.Default.Chance(f, gap, blade)) > place, Feel.Loose);
    }
}
