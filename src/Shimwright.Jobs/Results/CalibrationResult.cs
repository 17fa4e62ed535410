using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Results;

/// <summary>How often each feel came.</summary>
/// <param name="No">Blades that did not enter.</param>
/// <param name="Firm">Heavy drag.</param>
/// <param name="Light">Light, even drag.</param>
/// <param name="Loose">No drag.</param>
public sealed record FeelCounts(int No, int Firm, int Light, int Loose);

/// <summary>A fitted parameter; mm. Low and high are the ends of the 95 % interval, usual is what the default profile has.</summary>
/// <param name="Name">Its name in the settings.</param>
/// <param name="Value">The fitted value.</param>
/// <param name="U">Its standard uncertainty.</param>
/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end of the 95 % interval.</param>
/// <param name="Usual">What the default profile has.</param>
public sealed record FeelParameterRow([property: Words("firm", "light", "loose", "spread")] string Name, double Value, [property: Bounds(0)] double U, double Low, double High, double Usual);

/// <summary>The fitted profile against the default one.</summary>
/// <param name="Statistic">Twice the difference of the log-likelihoods.</param>
/// <param name="Degrees">Degrees of freedom of the statistic.</param>
/// <param name="Chance">How often chance alone would make it so great.</param>
/// <param name="Differs">Whether the fingers differ from the usual ones.</param>
public sealed record FeelComparisonRow(double Statistic, int Degrees, [property: Bounds(0, 1)] double Chance, bool Differs);

/// <summary>A trial to make; mm.</summary>
/// <param name="Gap">The gap.</param>
/// <param name="Blade">The blade to try in it.</param>
public sealed record FeelTrialRow(double Gap, double Blade);

/// <summary>The answer of the command calibrate.</summary>
/// <param name="Format">shimwright-calibration/1.</param>
/// <param name="Trials">How many trials were fitted.</param>
/// <param name="Counts">How often each feel came.</param>
/// <param name="Feel">The fitted feel, as it is pasted into the settings.</param>
/// <param name="Blade">Standard uncertainty assumed for a blade, mm.</param>
/// <param name="Parameters">The fitted parameters.</param>
/// <param name="LogLikelihood">The log-likelihood of the fit.</param>
/// <param name="AgainstUsual">The fit against the default profile.</param>
/// <param name="TryNext">The trials that would tell you most, best first.</param>
/// <param name="Cautions">What to bear in mind.</param>
public sealed record CalibrationResult(
    [property: Words(CalibrationResult.FormatName)] string Format, int Trials, FeelCounts Counts, FeelSettings Feel, double Blade, IReadOnlyList<FeelParameterRow> Parameters,
    double LogLikelihood, FeelComparisonRow AgainstUsual, IReadOnlyList<FeelTrialRow> TryNext, IReadOnlyList<string> Cautions)
{
    /// <summary>What its member format says.</summary>
    public const string FormatName = "shimwright-calibration/1";

    /// <summary>Writes a fit down.</summary>
    /// <param name="trials">The trials that were fitted.</param>
    /// <param name="fit">The fit.</param>
    /// <param name="next">What to try next.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="trials"/>, <paramref name="fit"/> or <paramref name="next"/> is null.</exception>
    public static CalibrationResult Of(IReadOnlyList<FeelTrial> trials, FeelFit fit, IReadOnlyList<NextFeelTrial> next)
    {
        ArgumentNullException.ThrowIfNull(trials);
        ArgumentNullException.ThrowIfNull(fit);
        ArgumentNullException.ThrowIfNull(next);
        int Count(Feel feel) => trials.Count(t => t.Trial.Feel == feel);
        return new(
            FormatName,
            trials.Count,
            new FeelCounts(Count(Domain.Readings.Feel.No), Count(Domain.Readings.Feel.Firm), Count(Domain.Readings.Feel.Light), Count(Domain.Readings.Feel.Loose)),
            ToPaste(fit.Feel),
            fit.Feel.Blade,
            [.. fit.Parameters.Select(p => new FeelParameterRow(
                p.Name, Rounding.Length(p.Value), Rounding.Length(p.StandardError), Rounding.Length(p.Low), Rounding.Length(p.High), p.Usual))],
            Math.Round(fit.LogLikelihood, 6),
            new FeelComparisonRow(Math.Round(fit.AgainstDefault.Statistic, 6), FeelComparison.Degrees, Rounding.Chance(fit.AgainstDefault.Chance), fit.AgainstDefault.Differs),
            [.. next.Select(n => new FeelTrialRow(Rounding.Length(n.Gap), Rounding.Length(n.Blade)))],
            CalibrationWords.Cautions(trials, fit));
    }

    /// <summary>The member settings.feel of a job file: to a tenth of a micrometre, and never below what a job file takes.</summary>
    private static FeelSettings ToPaste(FeelProfile feel) => new(
        Math.Round(feel.Firm, 4), Math.Round(feel.Light, 4), Math.Round(feel.Loose, 4),
        Math.Max(FeelProfile.LeastSpread, Math.Round(feel.StandardDeviation, 4)), feel.Slip, Math.Round(feel.Doubt, 4));
}
