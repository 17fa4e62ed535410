using System.Globalization;
using Shimwright.Domain.FeelCalibration;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Written;
using static System.FormattableString;

namespace Shimwright.Cli.Answers;

/// <summary>What calibrate prints.</summary>
internal static class CalibrationPage
{
    private static readonly Dictionary<string, string> Meanings = new(StringComparer.Ordinal)
    {
        ["firm"] = "a blade just enters",
        ["light"] = "heavy drag turns light",
        ["loose"] = "drag ends",
        ["spread"] = "how blurred these are",
    };

    public static void Write(Page page, CalibrationResult answer, IReadOnlyList<NextFeelTrial> next)
    {
        page.Heading($"These fingers, from {answer.Trials} trials (play between gap and blade, {page.UnitName})");
        page.Rows<FeelParameterRow>(
            answer.Parameters,
            new("", p => p.Name),
            new("Play at which", p => Meanings[p.Name]),
            new("Found", p => page.Lengths.Clearance(p.Value)),
            new("Uncertainty", p => page.Lengths.Clearance(p.U)),
            new("95 % interval", p => $"{page.Lengths.Clearance(p.Low)} to {page.Lengths.Clearance(p.High)}"),
            new("Usual", p => page.Lengths.Clearance(p.Usual)));
        FeelCounts counts = answer.Counts;
        page.Bullets(
        [
            Invariant($"Felt: no {counts.No}, firm {counts.Firm}, light {counts.Light}, loose {counts.Loose}."),
            Comparison(answer.AgainstUsual),
            $"The first three may all be off together by {page.Lengths.Fine(answer.Feel.Doubt)} {page.UnitName} (standard error; {page.Lengths.Fine(FeelSettings.Usual.Doubt)} for the usual feel).",
            $"To know them better, {CalibrationWords.ToTry(next, page.Lengths.Words)}.",
        ]);
        page.Heading("To paste into a job file (lengths in mm)");
        page.Paragraph(string.Join('\n', Settings(answer)));
        if (answer.Cautions.Count > 0)
        {
            page.Heading("Cautions");
            page.Bullets(answer.Cautions);
        }
    }

    private static string Comparison(FeelComparisonRow row)
    {
        string chance = row.Chance < 0.0001 ? "less than 0.0001" : row.Chance.ToString("0.0000", CultureInfo.InvariantCulture);
        return row.Differs
            ? $"They differ from the usual ones: usual fingers would give such trials with a chance of {chance}."
            : $"They cannot be told from the usual ones, which would give such trials with a chance of {chance}.";
    }

    /// <summary>Short lines, so that no page breaks them where a job file would not be whole any more.</summary>
    private static IEnumerable<string> Settings(CalibrationResult answer)
    {
        FeelSettings feel = answer.Feel;
        yield return "\"settings\": {";
        yield return Invariant($"  \"feel\": {{\"firm\": {feel.Firm:0.0###}, \"light\": {feel.Light:0.0###}, \"loose\": {feel.Loose:0.0###},");
        yield return Invariant($"           \"spread\": {feel.Spread:0.0###}, \"slip\": {feel.Slip:0.0###}, \"doubt\": {feel.Doubt:0.0###}}},");
        yield return Invariant($"  \"blade\": {answer.Blade:0.0###}");
        yield return "}";
    }
}
