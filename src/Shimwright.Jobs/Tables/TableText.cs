using System.Globalization;
using System.Text;
using System.Text.Unicode;
using CsvHelper;
using CsvHelper.Configuration;
using Shimwright.Jobs.Bounds;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Tables;

/// <summary>A file of lines and columns with a heading, as programs that make tables write it: columns between commas, semicolons or tabs.</summary>
internal sealed class TableText
{
    private TableText(IReadOnlyList<TableRow> rows) => Rows = rows;

    public IReadOnlyList<TableRow> Rows { get; }

    /// <summary>Reads the lines; null, with the problem noted, where there is no heading to go by.</summary>
    public static TableText? Read(ReadOnlySpan<byte> utf8, IReadOnlyList<string> required, IReadOnlyList<string> optional, List<TableProblem> problems)
    {
        if (utf8.Length > Limits.LargestTable)
        {
            problems.Add(new(0, "", $"found {utf8.Length} bytes", $"such a file has at most {Limits.LargestTable}"));
            return null;
        }

        ReadOnlySpan<byte> body = utf8.StartsWith(Encoding.UTF8.Preamble) ? utf8[Encoding.UTF8.Preamble.Length..] : utf8;
        if (!Utf8.IsValid(body))
        {
            problems.Add(new(0, "", "some bytes are no text in UTF-8", "save the file as UTF-8"));
            return null;
        }

        string text = Encoding.UTF8.GetString(body);
        using var parser = new CsvParser(new StringReader(text), new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = DelimiterOf(text).ToString(),
            TrimOptions = TrimOptions.Trim,
            BadDataFound = null,
        });
        return ReadHeading(parser, required, optional, problems) is { } heading
            ? new(ReadRows(parser, heading, problems))
            : null;
    }

    /// <summary>What stands between the columns of the first line: a semicolon or tab where it has one.</summary>
    private static char DelimiterOf(string text)
    {
        string first = text.Split('\n').FirstOrDefault(l => l.Trim().Length > 0) ?? "";
        return first.Contains(';', StringComparison.Ordinal) ? ';' : first.Contains('\t', StringComparison.Ordinal) ? '\t' : ',';
    }

    private static string[]? ReadHeading(CsvParser parser, IReadOnlyList<string> required, IReadOnlyList<string> optional, List<TableProblem> problems)
    {
        string allowed = $"the first line names the columns: {string.Join(", ", required)}"
            + (optional.Count > 0 ? $", and where wanted {string.Join(", ", optional)}" : "");
        if (!parser.Read())
        {
            problems.Add(new(0, "", "nothing stands in it", allowed));
            return null;
        }

        int line = parser.RawRow;
        string[] heading = [.. parser.Record!.Select(h => WithoutUnit(h.ToLowerInvariant()))];
        int before = problems.Count;
        foreach (string name in heading.Except(required).Except(optional).Where(h => h.Length > 0))
        {
            problems.Add(new(line, "", $"found the column \"{JsonText.Shortened(name)}\"", allowed));
        }

        foreach (string name in required.Except(heading))
        {
            problems.Add(new(line, "", $"there is no column \"{name}\"", allowed));
        }

        foreach (IGrouping<string, string> twice in heading.Where(h => h.Length > 0).GroupBy(h => h).Where(g => g.Count() > 1))
        {
            problems.Add(new(line, "", $"the column \"{JsonText.Shortened(twice.Key)}\" appears twice", "name each column once"));
        }

        return problems.Count == before ? heading : null;
    }

    /// <summary>Lengths are in mm, whether the heading says so or not.</summary>
    private static string WithoutUnit(string name) => name.EndsWith("_mm", StringComparison.Ordinal) ? name[..^3] : name;

    private static List<TableRow> ReadRows(CsvParser parser, string[] heading, List<TableProblem> problems)
    {
        List<TableRow> rows = [];
        while (!FirstProblems.AreEnough(problems) && parser.Read())
        {
            string[] fields = parser.Record!;
            if (fields.All(f => f.Length == 0))
            {
                continue;
            }

            if (rows.Count == Limits.MostTableLines)
            {
                problems.Add(new(parser.RawRow, "", $"found more than {Limits.MostTableLines} lines", $"allowed are {Limits.MostTableLines}"));
                break;
            }

            if (fields.Length > heading.Length && fields.Skip(heading.Length).Any(f => f.Length > 0))
            {
                problems.Add(new(
                    parser.RawRow, "", $"found {fields.Length} columns under a heading of {heading.Length}",
                    "where numbers have decimal commas, put semicolons between the columns"));
                continue;
            }

            rows.Add(new TableRow(
                parser.RawRow,
                heading.Zip(fields).Where(c => c.First.Length > 0 && c.Second.Length > 0).ToDictionary(c => c.First, c => c.Second, StringComparer.Ordinal),
                problems));
        }

        return rows;
    }
}
