using System.Globalization;

namespace Shimwright.Reference.Published;

/// <summary>A published file of comma-separated columns with a heading.</summary>
internal static class PublishedRows
{
    /// <summary>Its rows, each as its columns by name.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Rows(PublishedFile file)
    {
        string[][] lines = [.. file.Text.ReplaceLineEndings("\n").TrimEnd('\n').Split('\n').Select(l => l.Split(','))];
        return [.. lines.Skip(1).Select(l => lines[0].Zip(l).ToDictionary(p => p.First, p => p.Second, StringComparer.Ordinal))];
    }

    /// <summary>1 where a row has this value in a column, else 0.</summary>
    public static double Has(this IReadOnlyDictionary<string, string> row, string column, string value) =>
        row[column] == value ? 1 : 0;

    /// <summary>A column as a number.</summary>
    public static double Number(this IReadOnlyDictionary<string, string> row, string column) =>
        double.Parse(row[column], CultureInfo.InvariantCulture);
}
