using Shimwright.Domain.FeelCalibration;
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

/// <summary>Words of the pages about a person's feel.</summary>
internal static class FeelWords
{
    /// <summary>A chance below this is not written out.</summary>
    private const double Rare = 0.0001;

    /// <summary>The trials from which a profile is good. Common practice, no source.</summary>
    public const int Enough = FeelPromise.Trials;

    /// <summary>How far a person is, in one line.</summary>
    public static string Progress(int trials) => trials switch
    {
        < FeelCalibrator.FewestTrials => Invariant($"{trials} of {FeelCalibrator.FewestTrials} trials for a first profile"),
        < Enough => Invariant($"{trials} of {Enough} trials for a good profile"),
        _ => Invariant($"{trials} trials, enough for a good profile"),
    };

    /// <summary>What each figure of a profile means.</summary>
    public static string Meaning(string name) => name switch
    {
        "firm" => "blade just enters",
        "light" => "heavy to light drag",
        "loose" => "drag ends",
        _ => "scatter",
    };

    /// <summary>What trials would bring a person who has made none.</summary>
    public static string Promise(LengthStyle lengths) => Invariant(
        $"Make forty trials on known gaps to show how heavy your hand is. The shared uncertainty of your readings then falls from {lengths.Fine(FeelPromise.Before)} to about {lengths.Fine(FeelPromise.After)} {lengths.UnitName}.");

    /// <summary>A trial in one line.</summary>
    public static string Of(TrialMade trial, LengthStyle lengths) => Invariant(
        $"gap {lengths.Clearance(trial.Gap)}, blade {lengths.Shim(trial.Blade)}{(trial.Leaves > 1 ? Invariant($" in {trial.Leaves} leaves") : "")}: {FactWords.OfFeel(trial.Feel)}");

    /// <summary>Trials of one entry in one line.</summary>
    public static string Of(IReadOnlyList<TrialMade> trials, LengthStyle lengths) =>
        trials.Count == 1 ? Of(trials[0], lengths) : Invariant($"{trials.Count} trials from a file");

    /// <summary>What to do, as the trials have it.</summary>
    public static string Verdict(CalibrationResult fit) => fit.AgainstUsual.Differs ? "Use your own profile" : "Keep the default feel, or make more trials";

    /// <summary>The fit against the default feel, and whether chance alone would do that.</summary>
    public static string Comparison(CalibrationResult fit)
    {
        string chance = fit.AgainstUsual.Chance < Rare ? "very unlikely (less than 1 in 10,000)" : Invariant($"{fit.AgainstUsual.Chance * 100:0.##} %");
        return fit.AgainstUsual.Differs
            ? $"Your feel differs from the default. The chance of such trials with default fingers is {chance}."
            : $"Your feel does not differ clearly from the default. The chance of such trials with default fingers is {chance}.";
    }

    /// <summary>How far the three changes of feel may be off together, which every gap felt with them shares.</summary>
    public static string Doubt(CalibrationResult fit, LengthStyle lengths) =>
        $"Shared uncertainty {lengths.Fine(fit.Feel.Doubt)} {lengths.UnitName}, default {lengths.Fine(FeelSettings.Usual.Doubt)}.";

    /// <summary>The feel that is in use.</summary>
    public static string InUse(BenchSettings settings, IEnumerable<(string Name, FeelSettings? Used)> books) =>
        settings.Feel == FeelSettings.Usual ? "default feel"
        : books.FirstOrDefault(b => b.Used == settings.Feel) is { Name.Length: > 0 } whose ? $"feel of {whose.Name}"
        : "figures from the settings";

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
