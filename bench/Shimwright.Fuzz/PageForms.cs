using System.Net;
using System.Text.RegularExpressions;

namespace Shimwright.Fuzz;

/// <summary>A form of a page, as far as sending it needs: where it goes, how, and its fields with what stands in them.</summary>
internal sealed record PageForm(string Action, bool IsGet, IReadOnlyList<KeyValuePair<string, string>> Fields);

/// <summary>Finds the forms and links of a page that this program wrote.</summary>
internal static partial class PageForms
{
    public static IEnumerable<PageForm> In(string page, string html) => Form().Matches(html).Select(form => new PageForm(
        Named(form.Groups["tag"].Value, "action") is { Length: > 0 } action ? action : page,
        !form.Groups["tag"].Value.Contains("method=\"post\"", StringComparison.OrdinalIgnoreCase),
        [.. Field().Matches(form.Groups["body"].Value).Select(f => f.Value).Where(f => Named(f, "name") is not null).Select(f => KeyValuePair.Create(Named(f, "name")!, Named(f, "value") ?? ""))]));

    public static IEnumerable<string> Links(string html) => Link().Matches(html).Select(l => WebUtility.HtmlDecode(l.Groups[1].Value));

    private static string? Named(string tag, string name) =>
        Regex.Match(tag, $"\\b{name}=\"([^\"]*)\"") is { Success: true } found ? WebUtility.HtmlDecode(found.Groups[1].Value) : null;

    [GeneratedRegex("<form(?<tag>[^>]*)>(?<body>.*?)</form>", RegexOptions.Singleline)]
    private static partial Regex Form();

    [GeneratedRegex("<(?:input|select|textarea|button)[^>]*>")]
    private static partial Regex Field();

    [GeneratedRegex("<a[^>]*href=\"(/[^\"#]*)\"")]
    private static partial Regex Link();
}
