namespace Shimwright.Jobs.Tables;

/// <summary>
/// Text in a cell that a spreadsheet may open: one that would be taken for a formula has an apostrophe before it, which is taken off again
/// when the file is read.
/// </summary>
internal static class CellText
{
    private const string Starts = "=+-@\t\r\n'";

    /// <summary>The text as it is written.</summary>
    public static string? Written(string? text) => IsTaken(text) ? $"'{text}" : text;

    /// <summary>The text as it was, whether it was written here or typed.</summary>
    public static string? Read(string? cell) => cell is ['\'', ..] && IsTaken(cell[1..]) ? cell[1..] : cell;

    private static bool IsTaken(string? text) => text is [var first, ..] && Starts.Contains(first, StringComparison.Ordinal);
}
