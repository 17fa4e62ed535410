using System.Globalization;
using Microsoft.AspNetCore.Components;

namespace Shimwright.Pages.Pictures;

/// <summary>Numbers as a drawing wants them: a decimal point whatever the culture, and no more digits than can be seen.</summary>
internal static class Svg
{
    /// <summary>A text in a drawing, written out because Razor takes "text" for its own.</summary>
    public static MarkupString Text(double x, double y, string anchor, string words, string look = "word") => words.Length == 0
        ? default
        : new($"<text class=\"{look}\" x=\"{N(x)}\" y=\"{N(y)}\" text-anchor=\"{anchor}\">{System.Net.WebUtility.HtmlEncode(words)}</text>");

    public static string N(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
