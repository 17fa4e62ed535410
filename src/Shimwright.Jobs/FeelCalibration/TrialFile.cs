using System.Text;
using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tables;

namespace Shimwright.Jobs.FeelCalibration;

/// <summary>Trials read from a file, or everything that is wrong with it.</summary>
/// <param name="Trials">The trials; null where there are problems.</param>
/// <param name="Problems">All problems, in the order of the lines.</param>
public sealed record TrialReading(IReadOnlyList<FeelTrial>? Trials, IReadOnlyList<TableProblem> Problems);

/// <summary>Blade trials on gaps of known size, one a line: columns gap, blade, leaves (optional) and feel.</summary>
public static class TrialFile
{
    private static readonly string[] Needed = ["gap", "blade", "feel"];
    private static readonly string[] Optional = ["leaves"];
    internal static readonly NumberRule Gap = new(0, FeelTrial.Widest, Measure.Length, LeastIsLeftOut: true);
    internal static readonly NumberRule Blade = new(0, BladeTrial.Thickest, Measure.Length, LeastIsLeftOut: true);

    private static readonly Dictionary<string, Feel> Feels =
        Enum.GetValues<Feel>().ToDictionary(f => Words.Of(f), StringComparer.Ordinal);

    /// <summary>The columns of a file that is written.</summary>
    public static IReadOnlyList<ListColumn<FeelTrial>> Columns { get; } =
    [
        new("gap_mm", "the gap, of known size", t => NumberRule.Text(t.Gap)),
        new("blade_mm", "the blade or stack that was tried in it", t => NumberRule.Text(t.Trial.Blade)),
        new("leaves", "leaves in the stack", t => t.Trial.Leaves),
        new("feel", "no, firm, light or loose", t => Words.Of(t.Trial.Feel)),
    ];

    /// <summary>Reads a file.</summary>
    /// <param name="utf8">The file's bytes.</param>
    /// <returns>The trials, or all problems.</returns>
    public static TrialReading Read(ReadOnlySpan<byte> utf8)
    {
        List<TableProblem> problems = [];
        List<FeelTrial> trials = [];
        foreach (TableRow row in TableText.Read(utf8, Needed, Optional, problems)?.Rows.TakeWhile(_ => !FirstProblems.AreEnough(problems)) ?? [])
        {
            if (ReadOne(row) is { } trial)
            {
                trials.Add(trial);
            }
        }

        return problems.Count == 0 ? new(trials, []) : new(null, TableProblem.First(problems));
    }

    /// <summary>Writes trials as a file that <see cref="Read"/> takes.</summary>
    /// <param name="trials">The trials.</param>
    /// <returns>UTF-8, lines of columns between commas, lengths in mm.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="trials"/> is null.</exception>
    public static byte[] Write(IEnumerable<FeelTrial> trials)
    {
        return Encoding.UTF8.GetBytes(ListTable.Write(Columns, trials));
    }

    private static FeelTrial? ReadOne(TableRow row)
    {
        double? gap = row.Number("gap", Gap);
        double? blade = row.Number("blade", Blade);
        int? leaves = row.Whole("leaves", 1, BladeTrial.MostLeaves, usual: 1);
        Feel? feel = row.Choice("feel", Feels);
        if (gap is not { } g || blade is not { } b || leaves is not { } k || feel is not { } f)
        {
            return null;
        }

        if (Math.Abs(g - b) > FeelTrial.MostPlay)
        {
            row.Problem("gap", NumberRule.Text(g), $"allowed is within {NumberRule.Text(FeelTrial.MostPlay)} mm of the blade, {NumberRule.Text(b)}");
            return null;
        }

        return new FeelTrial(g, new BladeTrial(b, f, k));
    }
}
