using System.Globalization;
using System.Text;

namespace Shimwright.Jobs.Members;

/// <summary>Text of a file inside a message of one line: control characters, which a file may smuggle in, are written out.</summary>
internal static class OneLine
{
    public static string Of(string text)
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
