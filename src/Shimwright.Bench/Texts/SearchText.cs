using System.Globalization;
using System.Text;

namespace Shimwright.Bench.Texts;

/// <summary>Text as it is searched for and sorted by: without case and accents, and alike on every store.</summary>
public static class SearchText
{
    /// <summary>Folds a text.</summary>
    /// <param name="text">The text.</param>
    /// <returns>The text as it is compared.</returns>
    /// <exception cref="ArgumentNullException">There is no text.</exception>
    public static string Of(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var folded = new StringBuilder(text.Length);
        foreach (Rune rune in text.Trim().Normalize(NormalizationForm.FormD).EnumerateRunes())
        {
            if (Rune.GetUnicodeCategory(rune) != UnicodeCategory.NonSpacingMark)
            {
                folded.Append(Rune.ToUpperInvariant(rune).ToString());
            }
        }

        return Shortened(folded.ToString().Normalize(NormalizationForm.FormC));
    }

    /// <summary>Sorts by code points, as every store does, and not by halves of characters.</summary>
    public static IComparer<string> Order { get; } = Comparer<string>.Create(Compare);

    private static int Compare(string? x, string? y)
    {
        int[] a = [.. (x ?? "").EnumerateRunes().Select(r => r.Value)], b = [.. (y ?? "").EnumerateRunes().Select(r => r.Value)];
        return a.AsSpan().SequenceCompareTo(b);
    }

    private static string Shortened(string text) => string.Concat(text.EnumerateRunes().Take(PlainText.LongestName));
}
