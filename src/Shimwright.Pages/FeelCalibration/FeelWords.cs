using Shimwright.Domain.Readings;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Tables;
using Shimwright.Jobs.Written;
using Shimwright.Pages.Wording;
using static System.FormattableString;

namespace Shimwright.Pages.FeelCalibration;

/// <summary>What the pages about a person's feel say.</summary>
internal static class FeelWords
{
    /// <summary>The likelihood ratio above which nobody wants the digits any more.</summary>
    private const double HugeRatio = 1e6;

    /// <summary>What each figure of a profile means.</summary>
    public static string Meaning(string name) => name switch
    {
        "firm" => "a blade just enters",
        "light" => "heavy drag turns light",
        "loose" => "drag ends",
        _ => "how blurred these are",
    };

    /// <summary>What trials would bring somebody who has made none.</summary>
    public static string Promise(LengthStyle lengths) => Invariant(
        $"Forty trials on known gaps show how heavy your hand is: the doubt that all your readings share falls from {lengths.Fine(FeelPromise.Before)} to about {lengths.Fine(FeelPromise.After)} {lengths.UnitName}.");

    /// <summary>A trial in one line.</summary>
    public static string Of(TrialMade trial, LengthStyle lengths) => Invariant(
        $"gap {lengths.Clearance(trial.Gap)}, blade {lengths.Shim(trial.Blade)}{(trial.Leaves > 1 ? Invariant($" in {trial.Leaves} leaves") : "")}: {FactWords.OfFeel(trial.Feel)}");

    /// <summary>Trials of one entry in one line.</summary>
    public static string Of(IReadOnlyList<TrialMade> trials, LengthStyle lengths) =>
        trials.Count == 1 ? Of(trials[0], lengths) : Invariant($"{trials.Count} trials of a file");

    /// <summary>The fit against the usual feel: by how much likelier it makes the trials, and whether chance alone would do that.</summary>
    public static string Comparison(CalibrationResult fit)
    {
        double ratio = Math.Exp(fit.AgainstUsual.Statistic / 2);
        string times = ratio > HugeRatio ? "more than a million times" : ratio >= 10 ? Invariant($"{ratio:0} times") : Invariant($"{ratio:0.0} times");
        string chance = fit.AgainstUsual.Chance < 0.0001 ? "less than 1 in 10,000" : Invariant($"{fit.AgainstUsual.Chance * 100:0.##} in 100");
        return $"These trials are {times} as likely with the fitted feel as with the usual one. With fingers that are the usual ones that much or more comes by chance in {chance}. "
            + (fit.AgainstUsual.Differs ? "So these fingers are not the usual ones." : "So these fingers cannot be told from the usual ones.");
    }

    /// <summary>How far the three thresholds may be off together, which every gap felt with them shares.</summary>
    public static string Doubt(CalibrationResult fit, LengthStyle lengths) =>
        $"The first three may all be off together by {lengths.Fine(fit.Feel.Doubt)} {lengths.UnitName} (standard error; {lengths.Fine(FeelSettings.Usual.Doubt)} for the usual feel).";

    /// <summary>What the bench reckons with now.</summary>
    public static string InUse(BenchSettings settings, IEnumerable<(string Name, FeelSettings? Used)> books) =>
        settings.Feel == FeelSettings.Usual ? "the usual feel"
        : books.FirstOrDefault(b => b.Used == settings.Feel) is { Name.Length: > 0 } whose ? $"the feel of {whose.Name}"
        : "figures that were typed into the settings";

    /// <summary>Problems of a file as those of a form.</summary>
    public static IReadOnlyList<JobProblem> Of(IReadOnlyList<TableProblem> problems) =>
        [.. problems.Select(p => new JobProblem(
            p.Line == 0 ? "the file" : Invariant($"line {p.Line}{(p.Column.Length == 0 ? "" : ", ")}{p.Column}"), p.Found, p.Allowed))];

    /// <summary>How often each feel came.</summary>
    public static string Counts(IReadOnlyList<TrialMade> trials) => string.Join(", ", Enum.GetValues<Feel>().Reverse()
        .Select(f => Invariant($"{FactWords.OfFeel(Words.Of(f))} {trials.Count(t => t.Feel == Words.Of(f))}")));

    /// <summary>Profile of settings, for the chances in a picture.</summary>
    public static FeelProfile ProfileOf(FeelSettings feel, double blade) => new(feel.Firm, feel.Light, feel.Loose, feel.Spread, feel.Slip, blade, feel.Doubt);
}
