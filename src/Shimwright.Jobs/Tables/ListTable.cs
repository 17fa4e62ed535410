using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace Shimwright.Jobs.Tables;

/// <summary>A column of a list.</summary>
/// <typeparam name="T">What a row is.</typeparam>
/// <param name="Name">Its name, with the unit at its end where it has one.</param>
/// <param name="About">What stands in it, in a few words.</param>
/// <param name="Of">Reads it off a row: text, a number, yes or no, a day, a moment in UTC, an id; null where it is not known.</param>
public sealed record ListColumn<T>(string Name, string About, Func<T, object?> Of);

/// <summary>
/// A list as a file of lines and columns (RFC 4180): a heading, commas, decimal points and ISO 8601 days whatever the culture, and no text that a
/// spreadsheet would run.
/// </summary>
public static class ListTable
{
    /// <summary>Writes a file.</summary>
    /// <typeparam name="T">What a row is.</typeparam>
    /// <param name="columns">Its columns.</param>
    /// <param name="rows">Its rows.</param>
    /// <returns>Text.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    /// <exception cref="ArgumentException">A column reads off something that no cell can have.</exception>
    public static string Write<T>(IReadOnlyList<ListColumn<T>> columns, IEnumerable<T> rows)
    {
        ArgumentNullException.ThrowIfNull(columns);
        ArgumentNullException.ThrowIfNull(rows);
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new CsvWriter(text, new CsvConfiguration(CultureInfo.InvariantCulture) { NewLine = "\r\n" }))
        {
            foreach (ListColumn<T> column in columns)
            {
                csv.WriteField(column.Name);
            }

            csv.NextRecord();
            foreach (T row in rows)
            {
                foreach (ListColumn<T> column in columns)
                {
                    csv.WriteField(Cell(column.Of(row)));
                }

                csv.NextRecord();
            }
        }

        return text.ToString();
    }

    private static string? Cell(object? value) => value switch
    {
        null => null,
        string words => CellText.Written(words),
        bool flag => flag ? "yes" : "no",
        double number => number.ToString("0.######", CultureInfo.InvariantCulture),
        DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        DateTime moment => moment.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        _ => throw new ArgumentException($"A cell cannot have a {value.GetType()}.", nameof(value)),
    };
}
