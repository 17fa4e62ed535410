namespace Shimwright.Jobs.Members;

/// <summary>What a name in the job file may be.</summary>
internal static class NameRule
{
    public const int Longest = 200;

    /// <summary>The rule as a pattern for the schema: something to read in it, and no control characters.</summary>
    public const string Pattern = "^(?=.*\\S)[^\\u0000-\\u001f\\u007f-\\u009f\\u2028\\u2029]*$";

    public static readonly string Words = $"allowed is a text of 1 to {Longest} characters in one line, not blank";

    public static bool Allows(string text) =>
        !string.IsNullOrWhiteSpace(text)
        && !text.Any(c => char.IsControl(c) || c is '\u2028' or '\u2029')
        && text.EnumerateRunes().Count() <= Longest;
}
