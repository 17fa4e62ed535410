using System.Globalization;

namespace Shimwright.Reference.Published;

/// <summary>A published table of comma-separated values with a heading.</summary>
internal static class CsvTable
{
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Rows(PublishedFile file)
    {
        string[] lines = file.Text.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        string[] heading = lines[0].Split(',');
        return [.. lines.Skip(1).Select(line => heading.Zip(line.Split(',')).ToDictionary(c => c.First, c => c.Second))];
    }

    public static double Number(this IReadOnlyDictionary<string, string> row, string column) =>
        double.Parse(row[column], NumberStyles.Float, CultureInfo.InvariantCulture);
}
