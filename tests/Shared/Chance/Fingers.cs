using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Testing.Chance;

/// <summary>A mechanic with a set of blades, whose feels come with the model's chances, slips included.</summary>
internal static class Fingers
{
    /// <summary>Where the play of a light blade lies on average: the middle of the model's light range.</summary>
    public static readonly double MiddleOfLight = (FeelProfile.Default.Light + FeelProfile.Default.Loose) / 2;

    private const int MostTrials = 5;
    private static readonly double[] Blades = [0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23, 0.25];
    private static readonly Feel[] Feels = Enum.GetValues<Feel>();

    /// <summary>
    /// Starts with the blade nearest to the middle of the band and looks for two neighbours of which the thinner
    /// goes in easily (light or loose) and the thicker does not (firm, or not at all). One blade is skipped where
    /// the last would not enter or had no drag. Ends with the pair, at the end of the set, or after five trials.
    /// </summary>
    /// <param name="fingers">The person.</param>
    /// <param name="band">The valve's band.</param>
    /// <param name="clearance">Its true clearance, mm.</param>
    /// <param name="draws">Chance.</param>
    /// <param name="set">The blades, thinnest first, mm; left out, the study's nine.</param>
    public static ValveReadings Try(FeelProfile fingers, ClearanceBand band, double clearance, Draws draws, double[]? set = null)
    {
        double[] blades = set ?? Blades;
        int easy = -1;
        int tight = blades.Length;
        int at = Array.IndexOf(blades, blades.MinBy(b => Math.Abs(b - band.Middle)));
        List<BladeTrial> trials = [];
        while (trials.Count < MostTrials && tight - easy > 1)
        {
            Feel feel = Touch(fingers, clearance, blades[at], draws);
            trials.Add(new BladeTrial(blades[at], feel));
            (easy, tight) = IsEasy(feel) ? (at, tight) : (easy, at);
            int step = feel is Feel.No or Feel.Loose ? 2 : 1;
            at = easy < 0 ? Math.Max(0, tight - step)
                : tight == blades.Length ? Math.Min(blades.Length - 1, easy + step)
                : (easy + tight) / 2;
        }

        return new ValveReadings(trials);
    }

    /// <summary>Whether all clearances lie within the play of the thinnest and of the thickest blade.</summary>
    public static bool Reach(IReadOnlyList<double> clearances) => clearances.All(c =>
        c >= Blades[0] + FeelProfile.Default.Firm && c <= Blades[^1] + FeelProfile.Default.Loose);

    /// <summary>
    /// The number that a mechanic writes down: the thickest blade that was light; else midway between the thickest
    /// loose and the thinnest firm or refused; 0.02 under the thinnest tried where none went in easily, 0.02 over
    /// the thickest tried where all were loose. One who knows his fingers adds <paramref name="lightPlay"/> to a light blade.
    /// </summary>
    public static double PointOf(ValveReadings readings, double lightPlay)
    {
        BladeTrial[] easy = [.. readings.Trials.Where(t => IsEasy(t.Feel)).OrderBy(t => t.Blade)];
        BladeTrial[] tight = [.. readings.Trials.Where(t => !IsEasy(t.Feel)).OrderBy(t => t.Blade)];
        return easy.LastOrDefault(t => t.Feel == Feel.Light) is { } light ? light.Blade + lightPlay
            : easy.Length == 0 ? tight[0].Blade - 0.02
            : tight.Length == 0 ? easy[^1].Blade + 0.02
            : (easy[^1].Blade + tight[0].Blade) / 2;
    }

    /// <summary>Whether every blade that was tried would not enter.</summary>
    public static bool AreBlind(ValveReadings readings) =>
        readings.Trials.Count > 0 && readings.Values.Count == 0 && readings.Trials.All(t => t.Feel == Feel.No);

    /// <summary>One trial of a blade in a gap.</summary>
    public static Feel Touch(FeelProfile fingers, double clearance, double blade, Draws draws)
    {
        double left = draws.Uniform();
        foreach (Feel feel in Feels)
        {
            left -= fingers.Chance(feel, clearance, blade);
            if (left < 0)
            {
                return feel;
            }
        }

        return Feels[^1];
    }

    private static bool IsEasy(Feel feel) => feel is Feel.Light or Feel.Loose;
}
