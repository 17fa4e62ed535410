using System.Globalization;
using System.Text;

namespace Shimwright.Storage.Database;

/// <summary>Text as it is searched for and sorted by: without case and accents, and alike on every database.</summary>
internal static class SearchText
{
    /// <summary>Folds a text.</summary>
    public static string Of(string text)
    {
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

    private static string Shortened(string text) => string.Concat(text.EnumerateRunes().Take(BenchContext.LongestName));
}
