using Shimwright.Domain.FeelCalibration;
using Shimwright.Jobs.Wording;
using static System.FormattableString;

namespace Shimwright.Jobs.Results;

/// <summary>What is said about a calibration in words.</summary>
public static class CalibrationWords
{
    /// <summary>The trials from which a profile is worth having; common practice, no source.</summary>
    private const int Enough = 40;

    /// <summary>Why there is no fit, and what to do about it.</summary>
    /// <param name="result">A result without a fit.</param>
    /// <param name="trials">How many trials there were.</param>
    /// <param name="words">How lengths are written; millimetres where left out.</param>
    /// <returns>One line of text.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="result"/> is null.</exception>
    public static string Why(FeelCalibrationResult result, int trials, LengthWords? words = null)
    {
        ArgumentNullException.ThrowIfNull(result);
        return result.Status switch
        {
            FeelStatus.TooFewTrials => Invariant($"found {trials} trials; a calibration needs {FeelCalibrator.FewestTrials} at least and is worth having from {Enough}"),
            FeelStatus.FeelMissing => $"no trial felt {string.Join(" or ", result.Missing.Select(f => $"\"{Words.Of(f)}\""))}; each of the four feels is needed",
            FeelStatus.Separated => "every feel begins where the one before it ends, with no overlap beyond what the blades explain: how sharply these fingers tell cannot be found from such trials; try gaps where the feel is in doubt",
            _ => "the feel does not loosen as the gap grows over the blade; are the columns gap and blade the wrong way round?",
        } + $"; {ToTry(result.Next, words ?? LengthWords.Millimetres)}";
    }

    /// <summary>The trials that would say most.</summary>
    /// <param name="next">Them, best first.</param>
    /// <param name="words">How lengths are written.</param>
    /// <returns>Part of a sentence.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="words"/> is null.</exception>
    public static string ToTry(IReadOnlyList<NextFeelTrial> next, LengthWords words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return "try next " + string.Join(", then ", next.GroupBy(n => (n.Gap, n.Blade)).Select(g =>
            $"the {words.Shim(g.Key.Blade)} {words.Unit} blade in a gap of {words.Clearance(g.Key.Gap)}{(g.Count() > 1 ? Invariant($", {g.Count()} times") : "")}"));
    }

    /// <summary>What to bear in mind about a fit.</summary>
    internal static IReadOnlyList<string> Cautions(IReadOnlyList<FeelTrial> trials, FeelFit fit)
    {
        List<string> cautions = [];
        if (trials.Count < Enough)
        {
            cautions.Add(Invariant($"{trials.Count} trials leave much doubt: {Enough} are worth the time."));
        }

        if (!fit.AgainstDefault.Differs)
        {
            cautions.Add("These trials do not tell the fingers from the usual ones: the default profile is as good a choice.");
        }

        if (trials.Select(t => Math.Round(t.Trial.Blade, 6)).Distinct().Count() == 1)
        {
            cautions.Add("All trials were made with one blade: what that blade is off its nominal size is taken for the fingers. Use several blades.");
        }

        return cautions;
    }
}
