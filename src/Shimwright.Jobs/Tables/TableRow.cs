using System.Globalization;
using Shimwright.Jobs.Bounds;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Tables;

/// <summary>One line of a table. What is missing or wrong comes back as null with a problem noted.</summary>
internal sealed class TableRow(int line, IReadOnlyDictionary<string, string> fields, List<TableProblem> problems)
{
    private const NumberStyles Style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;

    public int Line => line;

    /// <summary>A number, with a decimal point or comma, or with a unit where the rule measures something.</summary>
    public double? Number(string column, NumberRule rule)
    {
        if (Find(column) is not { } text)
        {
            return null;
        }

        if (text.Length > Limits.LongestNumber)
        {
            Problem(column, text, $"{Limits.NumberRule}; {rule.Words}");
            return null;
        }

        string pointed = WithPoint(text);
        double? number = double.TryParse(pointed, Style, CultureInfo.InvariantCulture, out double plain) ? plain : MeasuredText.Read(pointed, rule.Measure);
        if (number is { } value && rule.Allows(value))
        {
            return value;
        }

        Problem(column, text, rule.Words + (number is { } n ? rule.Hint(n) : ""));
        return null;
    }

    /// <summary>Whether something stands in a column.</summary>
    public bool Has(string column) => fields.ContainsKey(column);

    /// <summary>What stands in a column; null where nothing does.</summary>
    public string? Text(string column) => fields.GetValueOrDefault(column);

    /// <summary>A whole number; the usual one where the column is left out or empty.</summary>
    public int? Whole(string column, int least, int greatest, int usual)
    {
        if (!fields.TryGetValue(column, out string? text))
        {
            return usual;
        }

        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int value) && value >= least && value <= greatest)
        {
            return value;
        }

        Problem(column, text, $"allowed is a whole number from {least} to {greatest}");
        return null;
    }

    /// <summary>One of some words, in any case.</summary>
    public T? Choice<T>(string column, IReadOnlyDictionary<string, T> choices)
        where T : struct
    {
        if (Find(column) is not { } text)
        {
            return null;
        }

        if (choices.TryGetValue(text.ToLowerInvariant(), out T value))
        {
            return value;
        }

        Problem(column, text, $"allowed is {string.Join(", ", choices.Keys)}");
        return null;
    }

    /// <summary>Notes a problem with what stands in a column.</summary>
    public void Problem(string column, string found, string allowed) =>
        problems.Add(new(line, column, $"found \"{JsonText.Shortened(found)}\"", allowed));

    private string? Find(string column)
    {
        if (fields.TryGetValue(column, out string? text))
        {
            return text;
        }

        problems.Add(new(line, column, "nothing was entered", "every line needs this column"));
        return null;
    }

    /// <summary>A single comma is a decimal comma: nothing that is measured here has thousands.</summary>
    private static string WithPoint(string text) =>
        !text.Contains('.', StringComparison.Ordinal) && text.Count(c => c == ',') == 1 ? text.Replace(',', '.') : text;
}
