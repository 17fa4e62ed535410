using System.Globalization;
using System.Text;
using System.Text.Json;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs;

/// <summary>Text that is no JSON: where it went wrong, and the last member that was read before.</summary>
internal static class SyntaxProblem
{
    private const int LongestShown = 100;

    public static JobProblem Of(ReadOnlySpan<byte> text, JsonException syntax)
    {
        if (text.IndexOfAnyExcept(" \t\r\n"u8) < 0)
        {
            return new("$", "the file is empty", "a job file is one JSON object");
        }

        string last = LastMember(text) is { } name ? $"the last member read is \"{Shortened(name)}\"" : "no member was read before it";
        int line = (int)(syntax.LineNumber ?? 0);
        int column = ColumnOf(text, line, (int)(syntax.BytePositionInLine ?? 0));
        return new("$", string.Create(CultureInfo.InvariantCulture, $"not JSON: line {line + 1}, column {column + 1}: {What(syntax.Message)}"), last);
    }

    /// <summary>The parser's message without its own account of the place and without the rest of the file, which it may quote.</summary>
    private static string What(string message)
    {
        string what = message.Split(" LineNumber:", 2)[0].Split(" Path:", 2)[0].TrimEnd('.', ' ');
        return what.Contains("depth to be zero", StringComparison.Ordinal) || what.Contains("isFinalBlock", StringComparison.Ordinal)
            ? "the text ends before everything is closed"
            : Shortened(what);
    }

    private static string Shortened(string text)
    {
        string line = text.Split(['\r', '\n'], 2)[0];
        return line.Length <= LongestShown ? line : string.Concat(line.AsSpan(0, LongestShown), "...");
    }

    /// <summary>Characters, not bytes, before the place in its line.</summary>
    private static int ColumnOf(ReadOnlySpan<byte> text, int line, int bytes)
    {
        for (int skipped = 0; skipped < line && text.IndexOf((byte)'\n') is var end && end >= 0; skipped++)
        {
            text = text[(end + 1)..];
        }

        return Encoding.UTF8.GetCharCount(text[..Math.Min(bytes, text.Length)]);
    }

    private static string? LastMember(ReadOnlySpan<byte> text)
    {
        string? last = null;
        var reader = new Utf8JsonReader(text);
        try
        {
            while (reader.Read())
            {
                if (reader.TokenType == JsonTokenType.PropertyName)
                {
                    last = reader.GetString();
                }
            }
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return last;
        }

        return last;
    }
}
