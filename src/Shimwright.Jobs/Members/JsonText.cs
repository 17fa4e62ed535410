using System.Text.Json;

namespace Shimwright.Jobs.Members;

/// <summary>JSON values and names as text for messages and paths; nothing here throws, whatever stands in the file.</summary>
internal static class JsonText
{
    private const int LongestShown = 60;

    /// <summary>A value as it stands in the file, shortened.</summary>
    public static string Show(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => "a list",
        _ => Shortened(element.GetRawText()),
    };

    /// <summary>As much of a text as a message has room for.</summary>
    public static string Shortened(string text) =>
        text.Length <= LongestShown ? text : string.Concat(text.AsSpan(0, LongestShown), "...");

    /// <summary>A member as it is written in a JSON path.</summary>
    public static string Member(string name) =>
        name.Length is > 0 and <= LongestShown && name.All(c => char.IsAsciiLetterOrDigit(c) || c == '_')
            ? $".{name}"
            : $"['{Shortened(name).Replace("'", "\\'", StringComparison.Ordinal)}']";

    /// <summary>Text, or null where it is none or holds half a surrogate pair, which no text can.</summary>
    public static string? TextOf(JsonElement element)
    {
        try
        {
            return element.ValueKind == JsonValueKind.String ? element.GetString() : null;
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }

    /// <summary>A property's name, whatever it is made of.</summary>
    public static string NameOf(JsonProperty property)
    {
        try
        {
            return property.Name;
        }
        catch (InvalidOperationException)
        {
            return "(not a text)";
        }
    }
}
