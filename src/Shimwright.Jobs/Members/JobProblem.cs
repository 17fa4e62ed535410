using System.Globalization;
using System.Text;

namespace Shimwright.Jobs.Members;

/// <summary>One thing that is wrong with a job file.</summary>
/// <param name="Path">Where: a JSON path such as $.check.readings[0].value.</param>
/// <param name="Found">What was found there.</param>
/// <param name="Allowed">What is allowed there, or what to do.</param>
public sealed record JobProblem(string Path, string Found, string Allowed)
{
    /// <summary>The problem in one line. Control characters, which a file may smuggle into names, are written out.</summary>
    /// <returns>Path, what was found, what is allowed.</returns>
    public override string ToString() => Plain($"{Path}: {Found}; {Allowed}");

    private static string Plain(string text)
    {
        if (!text.Any(MovesTheLine))
        {
            return text;
        }

        var plain = new StringBuilder(text.Length + 16);
        foreach (char c in text)
        {
            _ = MovesTheLine(c)
                ? plain.Append(CultureInfo.InvariantCulture, $"\\u{(int)c:x4}")
                : plain.Append(c);
        }

        return plain.ToString();
    }

    private static bool MovesTheLine(char c) =>
        char.GetUnicodeCategory(c) is UnicodeCategory.Control or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator;
}
